package mark

import (
	"cmp"
	"image"
	"math"
	"slices"

	"github.com/twodip/twodip/tiles/geometry"
)

// finder is what may be one of the three finder patterns of a QR code: seven
// modules of black round white round black, in white (ISO/IEC 18004).
type finder struct {
	at     geometry.Point // its middle, mm
	module float64        // mm
	match  float64        // correlation, −1 to 1
}

// Finder patterns are looked for on a picture of few pixels, with modules from
// the smallest that print to the largest that fit, each step as much larger.
const (
	finderScale = 8.0  // pixels a mm
	finderLeast = 0.3  // mm a module
	finderMost  = 1.15 // mm
	finderStep  = 1.12
	finderMatch = 0.4
	mostFinders = 16
)

// finders finds the likeliest finder patterns, best first.
func finders(g *image.Gray) []finder {
	s := sumUp(g)
	var all []finder
	for m := finderLeast; m <= finderMost; m *= finderStep {
		all = append(all, s.finders(m)...)
	}
	slices.SortFunc(all, func(a, b finder) int { return cmp.Compare(b.match, a.match) })
	var out []finder
	for _, f := range all {
		near := slices.ContainsFunc(out, func(o finder) bool { return o.at.Distance(f.at) < 3.5*o.module })
		if !near && len(out) < mostFinders {
			out = append(out, f)
		}
	}
	return out
}

// sums holds, at each pixel's corner, the sum of the values above and left of
// it, and of their squares.
type sums struct {
	w, h          int
	value, square []int64
}

func sumUp(g *image.Gray) *sums {
	w, h := g.Rect.Dx(), g.Rect.Dy()
	s := &sums{w, h, make([]int64, (w+1)*(h+1)), make([]int64, (w+1)*(h+1))}
	for y := range h {
		var v, q int64
		for x, p := range g.Pix[y*g.Stride:][:w] {
			v += int64(p)
			q += int64(p) * int64(p)
			at := (y+1)*(w+1) + x + 1
			s.value[at] = s.value[at-w-1] + v
			s.square[at] = s.square[at-w-1] + q
		}
	}
	return s
}

// box is the sum of the square reach pixels to all sides of x, y.
func (s *sums) box(of []int64, x, y, reach int) float64 {
	up, down := (y-reach)*(s.w+1), (y+reach+1)*(s.w+1)
	l, r := x-reach, x+reach+1
	return float64(of[down+r] - of[down+l] - of[up+r] + of[up+l])
}

// finders are the places where the picture is most like a finder pattern with
// modules of m mm. The pattern is four squares, one in the other.
func (s *sums) finders(m float64) []finder {
	var reach [4]int
	var area [4]float64
	for i, modules := range [4]float64{9, 7, 5, 3} {
		reach[i] = int(math.Round((modules*m*finderScale - 1) / 2))
		area[i] = float64((2*reach[i] + 1) * (2*reach[i] + 1))
	}
	tone := (area[0] - 2*area[1] + 2*area[2] - 2*area[3]) / area[0] // the pattern's mean, white being 1, black −1
	w, h := s.w-2*reach[0], s.h-2*reach[0]
	if w < 3 || h < 3 {
		return nil
	}
	match := make([]float32, w*h)
	for y := range h {
		for x := range w {
			cx, cy := x+reach[0], y+reach[0]
			all := s.box(s.value, cx, cy, reach[0])
			spread := s.box(s.square, cx, cy, reach[0]) - all*all/area[0]
			if spread < 30*area[0] {
				continue // even paper
			}
			cross := all*(1-tone) - 2*s.box(s.value, cx, cy, reach[1]) + 2*s.box(s.value, cx, cy, reach[2]) - 2*s.box(s.value, cx, cy, reach[3])
			match[y*w+x] = float32(cross / math.Sqrt(spread*area[0]*(1-tone*tone)))
		}
	}
	return peaks(match, w, h, func(x, y int, v float32) finder {
		px := geometry.Point{X: float64(x+reach[0]) + 0.5, Y: float64(y+reach[0]) + 0.5}
		return finder{at: px.Times(1 / finderScale), module: m, match: float64(v)}
	})
}

// peaks are the places that match better than all about them.
func peaks(match []float32, w, h int, found func(x, y int, v float32) finder) (out []finder) {
	for y := 1; y < h-1; y++ {
		for x := 1; x < w-1; x++ {
			v := match[y*w+x]
			if v < finderMatch {
				continue
			}
			best := true
			for _, d := range [8]int{-w - 1, -w, -w + 1, -1, 1, w - 1, w, w + 1} {
				best = best && match[y*w+x+d] <= v
			}
			if best {
				out = append(out, found(x, y, v))
			}
		}
	}
	return out
}
