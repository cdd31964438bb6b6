package mottle

import (
	"math"
	"math/rand/v2"
	"slices"

	"github.com/twodip/twodip/tiles/color"
)

const replicas = 400

// Doubt is ± ΔE00, about 95 %, of the area's color from having measured this
// area and not another of the same glaze: how far the mean moves when the area
// is put together again from its own pieces.
//
// A block bootstrap: pieces are squares larger than the mottle, since cells
// inside one patch of mottle tell nothing new. Source: Künsch, Ann. Stat. 17
// (1989) 1217–1241, in two dimensions and wrapped at the edges as Politis and
// Romano (1992) have it. Squares of any size miss what hangs together across
// their edges, half as much when they are twice as large; that is made up for
// as in Vats and Flegal, "Lugsail lag windows", Biometrika 109 (2022) 735–750.
func (a Area) Doubt() float64 {
	side := a.block()
	large, small := a.strays(side), a.strays(max(1, side/2))
	return math.Sqrt(large*large + math.Max(0, large*large-small*small))
}

// strays is the ΔE00 that 95 % of the replicas' means keep within, when put
// together from squares of some side. The draws are the same each time.
func (a Area) strays(side int) float64 {
	mean := a.Mean()
	sums := a.sums(side)
	if len(sums) == 0 {
		return 0
	}
	pieces := max(1, len(sums)/(side*side))
	random := rand.New(rand.NewPCG(2, 1989))
	moved := make([]float64, replicas)
	for i := range moved {
		var all piece
		for range pieces {
			all.add(sums[random.IntN(len(sums))])
		}
		if all.cells > 0 {
			moved[i] = color.DE00(mean, all.mean().Lab())
		}
	}
	slices.Sort(moved)
	return moved[replicas*95/100]
}

// piece is the light of a square of cells and how many of them were used.
type piece struct {
	light color.XYZ
	cells float64
}

func (p *piece) add(q piece) {
	p.light.X += q.light.X
	p.light.Y += q.light.Y
	p.light.Z += q.light.Z
	p.cells += q.cells
}

func (p *piece) mean() color.XYZ {
	return color.XYZ{X: p.light.X / p.cells, Y: p.light.Y / p.cells, Z: p.light.Z / p.cells}
}

// sums is the piece that starts at each cell and runs side cells to the right
// and down, wrapped at the edges.
func (a Area) sums(side int) []piece {
	width, height := a.size()
	if width == 0 || height == 0 {
		return nil
	}
	rows := make([]piece, width*height)
	for y := range height {
		for x := range width {
			for k := range side {
				rows[y*width+x].addCell(a.Cells[y*width+(x+k)%width])
			}
		}
	}
	out := make([]piece, width*height)
	for y := range height {
		for x := range width {
			for k := range side {
				out[y*width+x].add(rows[(y+k)%height*width+x])
			}
		}
	}
	return out
}

func (p *piece) addCell(c color.XYZ) {
	if c.Y >= 0 {
		p.add(piece{c, 1})
	}
}

func (a Area) size() (width, height int) {
	if a.Width <= 0 {
		return 0, 0
	}
	return a.Width, len(a.Cells) / a.Width
}

// block is the side of a piece, in cells: three times the distance at which
// neighbors stop being alike, at most a third of the area's shorter side.
func (a Area) block() int {
	width, height := a.size()
	if width == 0 {
		return 1
	}
	relief := a.relief()
	most := max(1, min(width, height)/3)
	side := 1
	for side < most && alike(relief, width, side) > 1/math.E {
		side++
	}
	return min(3*side, most)
}

// relief is how much lighter each cell is than the area, in L*; 0 where a cell
// is left out.
func (a Area) relief() []float64 {
	mean := a.Mean().L
	out := make([]float64, len(a.Cells))
	for i, c := range a.Cells {
		if c.Y >= 0 {
			out[i] = c.Lab().L - mean
		}
	}
	return out
}

// alike is the correlation of cells that lie lag cells apart, sideways or
// downwards; 0 where nothing varies.
func alike(relief []float64, width, lag int) float64 {
	var same, own float64
	for i, d := range relief {
		own += 2 * d * d
		if i%width+lag < width {
			same += d * relief[i+lag]
		}
		if i+lag*width < len(relief) {
			same += d * relief[i+lag*width]
		}
	}
	if own == 0 {
		return 0
	}
	return same / own
}
