package mark

import (
	"math"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/target"
)

// A tag is looked for around the place where the camera should see it, in a
// patch straightened to a grid of fine samples a cell.
const (
	perCell     = 4                  // samples a cell
	cellsAround = 4                  // cells the tag may be away from its place
	tagCells    = (target.Cells + 2) // cells of the tag with its white
	patchSide   = perCell * (tagCells + 2*cellsAround)
	windowSide  = perCell * tagCells
)

// patch is the light about a tag's place, straightened.
type patch struct {
	light  [patchSide * patchSide]float32
	tag    target.Mark
	inside bool
}

// straighten samples the picture about a tag.
func (p Plane) straighten(v *View, tag target.Mark) *patch {
	out := &patch{tag: tag, inside: true}
	step := tag.Cell() / perCell
	x0, y0 := tag.X-(1+cellsAround)*tag.Cell(), tag.Y-(1+cellsAround)*tag.Cell()
	for j := range patchSide {
		for i := range patchSide {
			q := v.See(x0+(float64(i)+0.5)*step, y0+(float64(j)+0.5)*step, 0)
			out.inside = out.inside && p.inside(q)
			out.light[j*patchSide+i] = float32(p.at(q, coded))
		}
	}
	return out
}

// match is the correlation of the stencil with the patch at a shift, −1 to 1.
func (p *patch) match(s *stencil, dx, dy int) float64 {
	var cross, sum, square float32
	for j := range s.n {
		row := p.light[(j+dy+s.skip)*patchSide+dx+s.skip:][:s.n]
		line := s.v[j*s.n:][:s.n]
		for i, v := range row {
			cross += v * line[i]
			sum += v
			square += v * v
		}
	}
	n := float32(s.n * s.n)
	spread := square - sum*sum/n
	if spread < n*0.0002 {
		return 0
	}
	return float64(cross) / math.Sqrt(float64(spread))
}

// best is the shift with the best match, coarse first and then sample by
// sample, from a start within reach.
func (p *patch) best(s *stencil, x0, y0, reach, step int) (x, y int, value float64) {
	value = -1
	for dy := max(y0-reach, 0); dy <= min(y0+reach, patchSide-windowSide); dy += step {
		for dx := max(x0-reach, 0); dx <= min(x0+reach, patchSide-windowSide); dx += step {
			if m := p.match(s, dx, dy); m > value {
				x, y, value = dx, dy, m
			}
		}
	}
	if step > 1 {
		return p.best(s, x, y, step-1, 1)
	}
	return x, y, value
}

// place is where the tag's middle is, mm from where it was looked for, from
// the matches about the best shift.
func (p *patch) place(s *stencil, x, y int) (dx, dy float64) {
	peak := func(lo, mid, hi float64) float64 {
		if d := lo - 2*mid + hi; d < 0 {
			return min(max((lo-hi)/(2*d), -0.5), 0.5)
		}
		return 0
	}
	mid := p.match(s, x, y)
	fx, fy := float64(x), float64(y)
	if x > 0 && x < patchSide-windowSide {
		fx += peak(p.match(s, x-1, y), mid, p.match(s, x+1, y))
	}
	if y > 0 && y < patchSide-windowSide {
		fy += peak(p.match(s, x, y-1), mid, p.match(s, x, y+1))
	}
	step := p.tag.Cell() / perCell
	return (fx - perCell*cellsAround) * step, (fy - perCell*cellsAround) * step
}

// cellsAt is the light of the 36 cells at a shift, their mean taken off and
// their length made 1.
func (p *patch) cellsAt(x, y int) [target.Side * target.Side]float64 {
	var c [target.Side * target.Side]float64
	mean := 0.0
	for j := range target.Side {
		for i := range target.Side {
			// The middle four of sixteen samples; two cells of white and border go before.
			at := (y+(j+2)*perCell+1)*patchSide + x + (i+2)*perCell + 1
			v := float64(p.light[at]+p.light[at+1]+p.light[at+patchSide]+p.light[at+patchSide+1]) / 4
			c[j*target.Side+i] = v
			mean += v / float64(len(c))
		}
	}
	square := 0.0
	for i := range c {
		c[i] -= mean
		square += c[i] * c[i]
	}
	for i := range c {
		c[i] /= math.Sqrt(square) + 1e-9
	}
	return c
}

// word is a planned tag ready to be compared: its cells as ±1, mean off,
// length 1.
type word struct {
	tile   tiles.Number
	turned bool // the tag hangs upside down
	bits   target.Bits
	cells  [target.Side * target.Side]float64
}

func newWord(n tiles.Number, b target.Bits) word {
	w := word{tile: n, bits: b}
	mean := 0.0
	for i := range w.cells {
		w.cells[i] = -1
		if b.White(i%target.Side, i/target.Side) {
			w.cells[i] = 1
		}
		mean += w.cells[i] / float64(len(w.cells))
	}
	k := 1 / math.Sqrt(float64(len(w.cells))*(1-mean*mean))
	for i := range w.cells {
		w.cells[i] = (w.cells[i] - mean) * k
	}
	return w
}

// hangs says that it is the tile's own tag, upright.
func (w *word) hangs(n tiles.Number) bool { return w.tile == n && !w.turned }

func (w *word) alike(c *[target.Side * target.Side]float64) float64 {
	sum := 0.0
	for i, v := range w.cells {
		sum += v * c[i]
	}
	return sum
}
