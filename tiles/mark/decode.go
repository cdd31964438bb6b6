package mark

import (
	"math"
	"slices"

	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/target"
)

// quadRead is what the cells of a quad look like when it is taken for a mark.
type quadRead struct {
	bits  target.Bits
	ink   float64 // light of the black border
	paper float64 // light of the white around it
	sure  float64 // mean distance of the cells from the middle, 0–1
}

// read takes the quad for a mark and reads its cells against the black of its
// border and the white around it, each as it changes across the mark. It
// refuses what has no black border.
func (p Plane) read(q geometry.Quad) (quadRead, bool) {
	h := q.Projection()
	ring, ok := p.ring(h, 0.5)
	if !ok {
		return quadRead{}, false
	}
	quiet, ok := p.ring(h, -0.5)
	if !ok {
		return quadRead{}, false
	}
	ink, paper := level(ring), level(quiet)
	s := quadRead{ink: ink.at(0.5, 0.5), paper: paper.at(0.5, 0.5)}
	middle := between(ink, paper)
	if s.paper-s.ink < 0.08 || over(ring, middle) > 0.1 || over(quiet, middle) < 0.8 {
		return quadRead{}, false
	}
	s.bits, s.sure = p.cells(h, middle, s.paper-s.ink)
	return s, true
}

// sample is the light at a place of the unit square.
type sample struct{ x, y, light float64 }

// ring samples the middle of a square ring of cells, depth cells inside the
// mark's edge, outside where negative: seven samples a side.
func (p Plane) ring(h geometry.Projection, depth float64) ([]sample, bool) {
	lo, hi := depth/target.Cells, 1-depth/target.Cells
	const n = 7
	out := make([]sample, 0, 4*n)
	for i := range n {
		t := lo + (hi-lo)*(float64(i)+0.5)/n
		for _, at := range []geometry.Point{{X: t, Y: lo}, {X: t, Y: hi}, {X: lo, Y: t}, {X: hi, Y: t}} {
			q := h.To(at)
			if !p.inside(q) {
				return nil, false
			}
			out = append(out, sample{at.X, at.Y, p.at(q, coded)})
		}
	}
	return out, true
}

// gradient is light that changes evenly across the unit square.
type gradient struct{ c, x, y float64 }

func (g gradient) at(x, y float64) float64 { return g.c + g.x*x + g.y*y }

func between(a, b gradient) gradient {
	return gradient{(a.c + b.c) / 2, (a.x + b.x) / 2, (a.y + b.y) / 2}
}

// level fits a gradient to samples of a ring: the median at the middle, the
// slopes from opposite sides, each side by its own median so that a few odd
// samples do no harm.
func level(ring []sample) gradient {
	pick := func(want func(s sample) bool) float64 {
		var v []float64
		for _, s := range ring {
			if want(s) {
				v = append(v, s.light)
			}
		}
		return median(v)
	}
	lo, hi := ring[0].y, ring[1].y
	top := pick(func(s sample) bool { return s.y == lo })
	bottom := pick(func(s sample) bool { return s.y == hi })
	left := pick(func(s sample) bool { return s.x == lo })
	right := pick(func(s sample) bool { return s.x == hi })
	g := gradient{x: (right - left) / (hi - lo), y: (bottom - top) / (hi - lo)}
	g.c = (top+bottom+left+right)/4 - (g.x+g.y)/2
	return g
}

// over is the share of samples lighter than the gradient.
func over(ring []sample, g gradient) float64 {
	n := 0
	for _, s := range ring {
		if s.light > g.at(s.x, s.y) {
			n++
		}
	}
	return float64(n) / float64(len(ring))
}

// cells reads the 36 cells, each as the mean of nine samples about its middle.
func (p Plane) cells(h geometry.Projection, middle gradient, gap float64) (target.Bits, float64) {
	var bits target.Bits
	sure := 0.0
	for y := range target.Side {
		for x := range target.Side {
			v := p.cell(h, float64(x+1), float64(y+1)) - middle.at((float64(x)+1.5)/target.Cells, (float64(y)+1.5)/target.Cells)
			bits <<= 1
			if v > 0 {
				bits |= 1
			}
			sure += math.Abs(v)
		}
	}
	return bits, 2 * sure / gap / (target.Side * target.Side)
}

// cell is the mean light about the middle of the cell whose corner is x, y.
func (p Plane) cell(h geometry.Projection, x, y float64) float64 {
	sum := 0.0
	for _, dy := range []float64{0.3, 0.5, 0.7} {
		for _, dx := range []float64{0.3, 0.5, 0.7} {
			sum += p.at(h.To(geometry.Point{X: (x + dx) / target.Cells, Y: (y + dy) / target.Cells}), coded)
		}
	}
	return sum / 9
}

func median(v []float64) float64 {
	s := slices.Clone(v)
	slices.Sort(s)
	return s[len(s)/2]
}
