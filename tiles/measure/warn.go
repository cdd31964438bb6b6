package measure

import (
	"math"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// Bounds from which the light of a photo is warned about.
const (
	darkMiddle  = 25.0 // L* of the middle pixel of a photo taken in the dark,
	darkLight   = 72.0 // and of its lightest hundredth
	darkPaper   = 0.18 // of what the file can hold, that the mat's paper should reach
	mostShadow  = 0.08 // of the ground that lies in a hard shadow
	shadowSteps = 12.0 // L* that a hard shadow takes from its ground
	shadowTint  = 8.0  // and what it changes of a* and b* at most
)

// tooDark says that a photo without marks was taken in the dark: noise and the
// camera's own brightening then weigh more than the glaze.
func (s *scene) tooDark() bool {
	y := s.picture()
	var counts [256]int
	for row := range y.Rect.Dy() {
		for _, v := range y.Y[row*y.YStride:][:y.Rect.Dx()] {
			counts[v]++
		}
	}
	n := y.Rect.Dx() * y.Rect.Dy()
	lightness := func(share float64) float64 {
		rank := int(share * float64(n))
		for v, c := range counts {
			if rank -= c; rank < 0 {
				return color.FromSRGB(uint8(v), uint8(v), uint8(v)).L
			}
		}
		return 100
	}
	return lightness(0.5) < darkMiddle && lightness(0.99) < darkLight
}

const saidDark = "the photo is very dark: photograph again by a window or in the shade outdoors"

// shadowed is the share of the ground outside a box that lies in shadow: much
// darker than the ground is there, and of the same hue.
func (s *search) shadowed(g *ground, box Quad) float64 {
	in, n := 0, 0
	b := box.Bounds()
	for i := range s.lab {
		if x, y := i%s.w, i/s.w; x >= b.Min.X && x < b.Max.X && y >= b.Min.Y && y < b.Max.Y {
			continue
		}
		x, y := s.place(i)
		c, q := s.lab[i], g.at(x, y)
		n++
		if c.L < q.L-shadowSteps && math.Hypot(c.A-q.A, c.B-q.B) < shadowTint {
			in++
		}
	}
	return float64(in) / float64(max(1, n))
}

// looksShaded says that the two parts of an area are one color in two lights:
// the darker has the same share of the lighter's X, Y and Z. Glaze that pools
// or breaks changes its hue or its chroma with its lightness.
func looksShaded(parts []tiles.Part) bool {
	if len(parts) != 2 || min(parts[0].Share, parts[1].Share) < 0.12 {
		return false
	}
	p, q := parts[0], parts[1]
	if p.L < q.L {
		p, q = q, p
	}
	light, dark := color.Lab{L: p.L, A: p.A, B: p.B}.XYZ(), color.Lab{L: q.L, A: q.A, B: q.B}.XYZ()
	x, y, z := dark.X/light.X, dark.Y/light.Y, dark.Z/light.Z
	return y < 0.65 && math.Abs(x/y-1) < 0.06 && math.Abs(z/y-1) < 0.06
}
