package simulate

import (
	"math"

	"github.com/twodip/twodip/tiles/target"
)

// Ink and white paper, and a card of 18 % grey.
var (
	Ink   = RGB{0.035, 0.035, 0.037}
	White = RGB{0.85, 0.85, 0.84}
	Grey  = RGB{0.18, 0.18, 0.18}
)

// Printed is a ground of one color with marks on it, each in a white square.
// Bleed is how far ink spreads over its edge, mm.
func Printed(width, height float64, ground RGB, marks []target.Mark, bleed float64) *Scene {
	quiet := make([]box, len(marks))
	for i, m := range marks {
		q := m.Quiet()
		quiet[i] = box{q.X, q.Y, q.X + q.W, q.Y + q.H}
	}
	index := newGrid(quiet)
	near := func(x, y float64) (target.Mark, bool) {
		for _, i := range index.near(x, y) {
			q := quiet[i]
			if x >= q[0] && y >= q[1] && x <= q[2] && y <= q[3] {
				return marks[i], true
			}
		}
		return target.Mark{}, false
	}
	return &Scene{Width: width, Height: height,
		Ground: func(x, y float64) RGB {
			m, ok := near(x, y)
			switch {
			case !ok:
				return ground
			case inked(m, x, y, bleed):
				return Ink
			}
			return White
		},
		Fine: func(x, y float64) bool { _, ok := near(x, y); return ok },
	}
}

// inked says whether the place is within bleed of an inked cell of the mark.
func inked(m target.Mark, x, y, bleed float64) bool {
	for _, d := range [5][2]float64{{0, 0}, {bleed, 0}, {-bleed, 0}, {0, bleed}, {0, -bleed}} {
		cx, cy := int(math.Floor((x+d[0]-m.X)/m.Cell())), int(math.Floor((y+d[1]-m.Y)/m.Cell()))
		if cx >= 0 && cy >= 0 && cx < target.Cells && cy < target.Cells && m.Bits.Black(cx, cy) {
			return true
		}
	}
	return false
}

// Label is the face of a label: white, with the modules of a QR code in a
// square of side mm, quiet zone of four modules included, at its right.
func Label(w, h, side float64, modules int, dark func(x, y int) bool) func(x, y float64) RGB {
	m := side / float64(modules+8)
	return func(x, y float64) RGB {
		cx, cy := int(math.Floor((x-w+side)/m))-4, int(math.Floor((y-(h-side)/2)/m))-4
		if cx >= 0 && cy >= 0 && cx < modules && cy < modules && dark(cx, cy) {
			return Ink
		}
		return White
	}
}

// Mottled is a glaze's face: a color with cells of lighter and darker about
// size mm across, strength 0–1.
func Mottled(c RGB, size, strength float64, seed uint64) func(x, y float64) RGB {
	return func(x, y float64) RGB {
		n := noise(x/size, y/size, seed)*0.7 + noise(2.3*x/size, 2.3*y/size, seed+1)*0.3
		k := float32(1 + strength*(2*n-1))
		return RGB{c[0] * k, c[1] * k, c[2] * k}
	}
}

// noise is smooth value noise, 0–1.
func noise(x, y float64, seed uint64) float64 {
	x0, y0 := math.Floor(x), math.Floor(y)
	fx, fy := x-x0, y-y0
	fx, fy = fx*fx*(3-2*fx), fy*fy*(3-2*fy)
	at := func(i, j float64) float64 {
		h := uint64(int64(i))*0x9e3779b97f4a7c15 ^ uint64(int64(j))*0xc2b2ae3d27d4eb4f ^ seed*0x165667b19e3779f9
		h = (h ^ h>>31) * 0xbf58476d1ce4e5b9
		return float64((h^h>>29)&0xffff) / 0xffff
	}
	a := at(x0, y0)*(1-fx) + at(x0+1, y0)*fx
	b := at(x0, y0+1)*(1-fx) + at(x0+1, y0+1)*fx
	return a*(1-fy) + b*fy
}
