package mark

import (
	"image"
	"math"

	"github.com/twodip/twodip/tiles/geometry"
)

// Plane is one channel of a picture, 8 bits a pixel; its rows begin Stride
// bytes apart.
type Plane struct {
	W, H, Stride int
	Pix          []uint8
}

// Gray is the plane of a grey picture whose corner is at 0, 0; the two share
// their pixels.
func Gray(g *image.Gray) Plane {
	return Plane{W: g.Rect.Dx(), H: g.Rect.Dy(), Stride: g.Stride, Pix: g.Pix}
}

// shrink averages n × n pixels into one; a rest at the right and bottom is
// left off.
func (p Plane) shrink(n int) Plane {
	out := Plane{W: p.W / n, H: p.H / n, Stride: p.W / n}
	out.Pix = make([]uint8, out.W*out.H)
	sums := make([]uint32, out.W)
	half := uint32(n * n / 2)
	for y := range out.H {
		clear(sums)
		for dy := range n {
			row := p.Pix[(y*n+dy)*p.Stride:][:out.W*n]
			addRow(sums, row, n)
		}
		to := out.Pix[y*out.W:][:out.W]
		for x, s := range sums {
			to[x] = uint8((s + half) / uint32(n*n))
		}
	}
	return out
}

// addRow adds each run of n pixels to its sum; 2 and 3, the usual ones, are
// written out because this touches every pixel of the photo.
func addRow(sums []uint32, row []uint8, n int) {
	switch n {
	case 2:
		for x := range sums {
			r := row[2*x : 2*x+2 : 2*x+2]
			sums[x] += uint32(r[0]) + uint32(r[1])
		}
	case 3:
		for x := range sums {
			r := row[3*x : 3*x+3 : 3*x+3]
			sums[x] += uint32(r[0]) + uint32(r[1]) + uint32(r[2])
		}
	default:
		for x := range sums {
			for _, v := range row[n*x : n*x+n] {
				sums[x] += uint32(v)
			}
		}
	}
}

// at reads the plane between pixels through a table of 256 values, bilinear;
// outside it repeats the edge. What is no number is taken for 0: a degenerate
// view must not become an index.
func (p Plane) at(q geometry.Point, table *[256]float32) float64 {
	x, y := q.X-0.5, q.Y-0.5
	x, y = within(x, p.W-1), within(y, p.H-1)
	x0, y0 := int(x), int(y)
	x1, y1 := min(x0+1, p.W-1), min(y0+1, p.H-1)
	fx, fy := float32(x-float64(x0)), float32(y-float64(y0))
	up, down := p.Pix[y0*p.Stride:], p.Pix[y1*p.Stride:]
	a := table[up[x0]]*(1-fx) + table[up[x1]]*fx
	b := table[down[x0]]*(1-fx) + table[down[x1]]*fx
	return float64(a*(1-fy) + b*fy)
}

// within is v kept from 0 to most; 0 where v is no number.
func within(v float64, most int) float64 {
	if !(v > 0) {
		return 0
	}
	return min(v, float64(most))
}

// inside says whether the point lies in the picture.
func (p Plane) inside(q geometry.Point) bool {
	return q.X >= 0 && q.Y >= 0 && q.X <= float64(p.W) && q.Y <= float64(p.H)
}

// linear undoes the curve of a coded picture (IEC 61966-2-1, close enough for
// every phone's own); coded leaves values as they are, 0–1.
var linear, coded = tables()

func tables() (lin, cod *[256]float32) {
	lin, cod = new([256]float32), new([256]float32)
	for i := range lin {
		v := float64(i) / 255
		cod[i] = float32(v)
		if v <= 0.04045 {
			lin[i] = float32(v / 12.92)
		} else {
			lin[i] = float32(math.Pow((v+0.055)/1.055, 2.4))
		}
	}
	return lin, cod
}
