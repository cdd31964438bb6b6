package simulate

import "math"

// box is a part of the ground, mm: left, top, right, bottom.
type box [4]float64

// grid says, for each square of the ground, which boxes reach into it.
type grid struct {
	left, top, wide int
	squares         [][]int
}

const squareSide = 16.0 // of a square, mm

// newGrid sorts boxes into squares.
func newGrid(boxes []box) grid {
	reaches := make([][4]int, len(boxes))
	all := [4]int{math.MaxInt32, math.MaxInt32, math.MinInt32, math.MinInt32}
	for i, b := range boxes {
		for k, mm := range b {
			reaches[i][k] = int(math.Floor(mm / squareSide))
		}
		r := reaches[i]
		all = [4]int{min(all[0], r[0]), min(all[1], r[1]), max(all[2], r[2]), max(all[3], r[3])}
	}
	if len(boxes) == 0 {
		return grid{}
	}
	g := grid{left: all[0], top: all[1], wide: all[2] - all[0] + 1}
	g.squares = make([][]int, g.wide*(all[3]-all[1]+1))
	for i, r := range reaches {
		for y := r[1]; y <= r[3]; y++ {
			for x := r[0]; x <= r[2]; x++ {
				at := (y-g.top)*g.wide + x - g.left
				g.squares[at] = append(g.squares[at], i)
			}
		}
	}
	return g
}

// near lists the boxes that reach into the square of a place, in their order.
func (g *grid) near(x, y float64) []int {
	cx, cy := int(math.Floor(x/squareSide))-g.left, int(math.Floor(y/squareSide))-g.top
	if cx < 0 || cy < 0 || cx >= g.wide || cy*g.wide+cx >= len(g.squares) {
		return nil
	}
	return g.squares[cy*g.wide+cx]
}
