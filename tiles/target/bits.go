package target

import "math/bits"

// Side is how many cells a mark's code has along one side; Cells is how many
// the whole mark has, with its black border of one cell.
const (
	Side  = 6
	Cells = Side + 2
)

// Bits is the inside of a mark, 6 × 6 cells: bit 35 is the top left cell, bit
// 0 the bottom right, row by row. A set bit is a white cell.
type Bits uint64

// White says whether the code's cell is white; x and y run 0–5.
func (b Bits) White(x, y int) bool { return b>>(Side*Side-1-(y*Side+x))&1 == 1 }

// Black says whether a cell of the whole mark is to be inked; x and y run 0–7
// and the border is black.
func (b Bits) Black(x, y int) bool {
	if x == 0 || y == 0 || x == Cells-1 || y == Cells-1 {
		return true
	}
	return !b.White(x-1, y-1)
}

// Run is a stretch of black cells in one row of a mark.
type Run struct{ X, Y, Length int }

// Runs lists the black cells of the whole mark as row-wise stretches, top to
// bottom: what a printer fills.
func (b Bits) Runs() []Run {
	var runs []Run
	for y := range Cells {
		for x := 0; x < Cells; {
			start := x
			for x < Cells && b.Black(x, y) {
				x++
			}
			if x > start {
				runs = append(runs, Run{X: start, Y: y, Length: x - start})
			}
			for x < Cells && !b.Black(x, y) {
				x++
			}
		}
	}
	return runs
}

// Turn is the code after the mark has been turned a quarter to the right.
func (b Bits) Turn() Bits {
	var out Bits
	for y := range Side {
		for x := range Side {
			out <<= 1
			if b.White(y, Side-1-x) {
				out |= 1
			}
		}
	}
	return out
}

// Mirrored is the code as a mirror shows it, left for right.
func (b Bits) Mirrored() Bits {
	var out Bits
	for y := range Side {
		for x := range Side {
			out <<= 1
			if b.White(Side-1-x, y) {
				out |= 1
			}
		}
	}
	return out
}

// Distance is how many cells differ, 0–36 (Hamming).
func (b Bits) Distance(c Bits) int { return bits.OnesCount64(uint64(b ^ c)) }

// Nearest is the least distance between the two codes over all four turns of
// the second, and the number of quarter turns that gives it.
func (b Bits) Nearest(c Bits) (distance, turns int) {
	distance = Side*Side + 1
	for t := range 4 {
		if d := b.Distance(c); d < distance {
			distance, turns = d, t
		}
		c = c.Turn()
	}
	return distance, turns
}
