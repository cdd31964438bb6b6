package mark

import (
	"math"

	"github.com/twodip/twodip/tiles/target"
)

// cells is the light of a QR code's modules, row by row, or what it should be:
// −1 ink, 1 white.
type cells struct {
	n int // across
	v []float64
}

func newCells(n int) cells { return cells{n, make([]float64, n*n)} }

// cells reads the light of every module, off its middle on all sides: the mean
// of four places has half the noise of one.
func (s *symbol) cells(see lit) cells {
	const off = 0.2
	c := newCells(s.modules)
	for i := range c.v {
		x, y := float64(i%c.n), float64(i/c.n)
		c.v[i] = (see(s.at(x-off, y-off)) + see(s.at(x+off, y-off)) + see(s.at(x-off, y+off)) + see(s.at(x+off, y+off))) / 4
	}
	return c
}

// cellsOf is a code as it should be.
func cellsOf(code target.QR) cells {
	c := newCells(code.Modules())
	for i := range c.v {
		c.v[i] = 1
		if code.Dark(i%c.n, i/c.n) {
			c.v[i] = -1
		}
	}
	return c
}

// blurred is the cells as a lens with a Gaussian blur of σ modules shows them,
// white paper being all about.
func (c cells) blurred(sigma float64, white float64) cells {
	below := func(v float64) float64 { return 0.5 * (1 + math.Erf(v/sigma/math.Sqrt2)) }
	var weight [3]float64 // of a module, its neighbors, and theirs
	for k := range weight {
		weight[k] = below(float64(k)+0.5) - below(float64(k)-0.5)
	}
	return c.smoothed(weight, white, 1, c.n).smoothed(weight, white, c.n, 1)
}

// smoothed weighs each cell and its neighbors in one direction.
func (c cells) smoothed(weight [3]float64, white float64, step, line int) cells {
	out := newCells(c.n)
	padded := make([]float64, c.n+4)
	for l := range c.n {
		for i := range padded {
			padded[i] = white
		}
		for i := range c.n {
			padded[i+2] = c.v[l*line+i*step]
		}
		for i := range c.n {
			p := padded[i : i+5]
			out.v[l*line+i*step] = weight[0]*p[2] + weight[1]*(p[1]+p[3]) + weight[2]*(p[0]+p[4])
		}
	}
	return out
}

// sharpened undoes some of a blur: it is for telling one module from the next,
// not for measuring.
func (c cells) sharpened() cells {
	white := 0.0
	for _, v := range c.v {
		white = max(white, v)
	}
	soft, out := c.blurred(0.6, white), newCells(c.n)
	for i, v := range c.v {
		out.v[i] = v + 2*(v-soft.v[i])
	}
	return out
}

// alike is the correlation of two sets of cells where use says so, −1 to 1.
func (c cells) alike(d cells, use func(i int) bool) float64 {
	var k correlation
	for i, v := range c.v {
		if use(i) {
			k.add(v, d.v[i])
		}
	}
	return k.value()
}

// correlation is Pearson's, gathered pair by pair.
type correlation struct{ n, x, y, xx, yy, xy float64 }

func (c *correlation) add(x, y float64) {
	c.n++
	c.x += x
	c.y += y
	c.xx += x * x
	c.yy += y * y
	c.xy += x * y
}

func (c *correlation) value() float64 {
	spread := (c.xx - c.x*c.x/c.n) * (c.yy - c.y*c.y/c.n)
	if !(spread > 1e-12) {
		return 0
	}
	return (c.xy - c.x*c.y/c.n) / math.Sqrt(spread)
}
