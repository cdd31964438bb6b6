package measure

import (
	"cmp"
	"math"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/mottle"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/photo"
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
func tooDark(y photo.Small) bool {
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
func (s *search) shadowed(g *ground, box geometry.Quad) float64 {
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

// looksShaded says that an area's two parts are one color in two lights: the
// darker has the same share of the lighter's X, Y and Z, and a straight line
// parts the two. Glaze that pools or breaks changes its hue or its chroma with
// its lightness, and does it all over the place.
func looksShaded(parts []tiles.Part, cells mottle.Area) bool {
	if len(parts) != 2 || min(parts[0].Share, parts[1].Share) < 0.12 {
		return false
	}
	p, q := parts[0], parts[1]
	if p.L < q.L {
		p, q = q, p
	}
	light, dark := color.Lab{L: p.L, A: p.A, B: p.B}.XYZ(), color.Lab{L: q.L, A: q.A, B: q.B}.XYZ()
	x, y, z := dark.X/light.X, dark.Y/light.Y, dark.Z/light.Z
	return y < 0.65 && math.Abs(x/y-1) < 0.06 && math.Abs(z/y-1) < 0.06 &&
		partedByALine(cells, (p.L+q.L)/2) > shadowEdge
}

// shadowEdge is the share of the cells that a straight line must put on the
// right side.
const shadowEdge = 0.95

// partedByALine is the share of the cells that lie on the right side of the
// best line across the way from the middle of the dark ones to the middle of
// the light ones.
func partedByALine(cells mottle.Area, limit float64) float64 {
	type spot struct {
		x, y float64
		dark bool
	}
	var spots []spot
	var sum [2][3]float64 // light and dark: count, x, y
	for i, c := range cells.Cells {
		if c.Y < 0 {
			continue
		}
		s := spot{float64(i % cells.Width), float64(i / cells.Width), c.Lab().L < limit}
		spots = append(spots, s)
		at := &sum[0]
		if s.dark {
			at = &sum[1]
		}
		at[0], at[1], at[2] = at[0]+1, at[1]+s.x, at[2]+s.y
	}
	if sum[0][0] == 0 || sum[1][0] == 0 {
		return 0
	}
	dx := sum[0][1]/sum[0][0] - sum[1][1]/sum[1][0]
	dy := sum[0][2]/sum[0][0] - sum[1][2]/sum[1][0]
	slices.SortFunc(spots, func(a, b spot) int { return cmp.Compare(a.x*dx+a.y*dy, b.x*dx+b.y*dy) })
	right := int(sum[0][0]) // all taken for light
	best := right
	for _, s := range spots {
		if s.dark {
			right++
		} else {
			right--
		}
		best = max(best, right)
	}
	return float64(best) / float64(len(spots))
}
