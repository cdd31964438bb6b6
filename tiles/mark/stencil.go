package mark

import (
	"math"

	"github.com/twodip/twodip/tiles/target"
)

// stencil is a pattern on the patch's grid, −1 for ink and +1 for white, its
// mean taken off and its length made 1; n is its side in samples, skip how
// many samples of the window lie before it.
type stencil struct {
	n, skip int
	v       []float32
}

// drawing is a pattern before it is made a stencil.
type drawing [windowSide * windowSide]float32

func draw(black func(x, y int) int) *drawing {
	var d drawing
	for j := range windowSide {
		for i := range windowSide {
			d[j*windowSide+i] = float32(-black(i/perCell-1, j/perCell-1))
		}
	}
	return &d
}

// border is what all tags have in common: white, a black border, and cells
// that say nothing.
var border = draw(func(x, y int) int {
	switch {
	case x < 0 || y < 0 || x >= target.Cells || y >= target.Cells:
		return -1
	case x == 0 || y == 0 || x == target.Cells-1 || y == target.Cells-1:
		return 1
	}
	return 0
}).blurred(2).stencil(0)

func drawCode(b target.Bits) *drawing {
	return draw(func(x, y int) int {
		if x < 0 || y < 0 || x >= target.Cells || y >= target.Cells || !b.Black(x, y) {
			return -1
		}
		return 1
	})
}

// blurred averages each sample with its neighbors, 1 2 1 both ways, a number
// of times: σ is the square root of half that number, in samples.
func (d *drawing) blurred(times int) *drawing {
	a, b := *d, drawing{}
	edge := func(i int) int { return min(max(i, 0), windowSide-1) }
	for range times {
		for j := range windowSide {
			for i := range windowSide {
				b[j*windowSide+i] = a[j*windowSide+edge(i-1)]/4 + a[j*windowSide+i]/2 + a[j*windowSide+edge(i+1)]/4
			}
		}
		for j := range windowSide {
			for i := range windowSide {
				a[j*windowSide+i] = b[edge(j-1)*windowSide+i]/4 + b[j*windowSide+i]/2 + b[edge(j+1)*windowSide+i]/4
			}
		}
	}
	return &a
}

// stencil leaves out a rim of the drawing, skip samples wide.
func (d *drawing) stencil(skip int) *stencil {
	s := &stencil{n: windowSide - 2*skip, skip: skip}
	sum, square := 0.0, 0.0
	for j := range s.n {
		s.v = append(s.v, d[(j+skip)*windowSide+skip:][:s.n]...)
	}
	for _, v := range s.v {
		sum += float64(v)
	}
	mean := float32(sum / float64(len(s.v)))
	for i := range s.v {
		s.v[i] -= mean
		square += float64(s.v[i] * s.v[i])
	}
	k := float32(1 / math.Sqrt(square))
	for i := range s.v {
		s.v[i] *= k
	}
	return s
}
