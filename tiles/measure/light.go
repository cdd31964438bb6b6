package measure

import (
	"cmp"
	"math"
	"slices"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/photo"
)

// level is how the light falls across a photo, as white paper in it shows.
type level struct {
	correct.Light
	w, h float64
}

// at is the light at a place in the photo, over that on the paper taken
// together; where there is no level it is 1.
func (l *level) at(x, y float64) correct.RGB {
	if l == nil {
		return correct.RGB{1, 1, 1}
	}
	return l.At(x/l.w, y/l.h)
}

// paperCells is into about how many cells the paper in a photo is cut: enough
// to step around a shadow's edge.
const paperCells = 36

// Lit is how the light falls on a photo, as white paper in it shows.
type Lit struct {
	Paper  correct.RGB     // light of the paper, were what falls on it even; zero = none was seen
	Ink    correct.RGB     // light of black ink
	Places []geometry.Quad // where the paper was read
	level  *level          // nil = taken for even
}

// readLight reads the light from places where the photo shows white paper, and
// what black ink gives back of it.
func readLight(p *photo.Photo, paper, ink []geometry.Quad) Lit {
	var m mosaic
	m.read(p, p.Image.Bounds())
	total := 0.0
	for _, q := range paper {
		total += q.Area()
	}
	side := math.Sqrt(total / paperCells)
	w, h := float64(p.Width()), float64(p.Height())
	spots := m.spots(paper, side, w, h)
	l := &level{correct.LightFrom(spots), w, h}
	return Lit{Places: paper, level: l, Paper: l.even(spots), Ink: l.even(m.spots(ink, math.Inf(1), w, h))}
}

// leveled is what a place would show, were the light even.
func (l *Lit) leveled(place geometry.Quad, rgb correct.RGB) correct.RGB {
	c := place.Part(0.5, 0.5, 1, 1)[0]
	at := l.level.at(c.X, c.Y)
	for k := range rgb {
		rgb[k] /= at[k]
	}
	return rgb
}

// spots looks at cells of about side pixels in quads of one surface.
func (m *mosaic) spots(quads []geometry.Quad, side, w, h float64) []correct.Spot {
	var out []correct.Spot
	for _, q := range quads {
		for _, part := range q.Cut(side) {
			if rgb, ok := m.middling(part); ok {
				c := part.Part(0.5, 0.5, 1, 1)[0]
				out = append(out, correct.Spot{X: c.X / w, Y: c.Y / h, RGB: rgb})
			}
		}
	}
	return out
}

// even is the light of a surface, were what falls on it even: the mean over
// its spots; zero where there is none.
func (l *level) even(spots []correct.Spot) (out correct.RGB) {
	for _, spot := range spots {
		even := l.Level(spot.X, spot.Y, spot.RGB)
		for k := range out {
			out[k] += even[k] / float64(len(spots))
		}
	}
	return out
}

// middling is the light in the quad that is the median by its green, a mean of
// the fifth of the blocks about it; ok is false where the quad is blown or
// hardly covers a block.
func (m *mosaic) middling(q geometry.Quad) (rgb correct.RGB, ok bool) {
	in, blown := m.within(q)
	if len(in) < 4 || blown > len(in)/4 {
		return rgb, false
	}
	slices.SortFunc(in, func(a, b [3]float32) int { return cmp.Compare(a[1], b[1]) })
	some := in[len(in)*2/5 : len(in)*3/5+1]
	for _, l := range some {
		for k := range rgb {
			rgb[k] += float64(l[k]) / float64(len(some))
		}
	}
	return rgb, rgb[1] > 0.001
}

// within is the light of the quad's blocks that are not blown, and how many are.
func (m *mosaic) within(q geometry.Quad) (in [][3]float32, blown int) {
	forward := q.Projection()
	back := forward.Inverse()
	part := m.blocksIn(q.Bounds())
	for y := part.Min.Y; y < part.Max.Y; y++ {
		for x := part.Min.X; x < part.Max.X; x++ {
			px, py := m.center(x, y)
			switch at := back.To(geometry.Point{X: px, Y: py}); {
			case !inUnitSquare(at):
			case m.blown[y*m.w+x]:
				blown++
			default:
				in = append(in, m.light[y*m.w+x])
			}
		}
	}
	return in, blown
}

// uneven is how far the light is from any that falls evenly or changes smoothly,
// as a share of it; 0 = even, or not known.
func (l *Lit) uneven() float64 {
	if l.level == nil {
		return 0
	}
	return l.level.Uneven()
}

// unevenSaid is from where a shadow's edge is said: on simulated mats 0.005 was
// reached without one, by 95 %, and 0.028 with one.
const unevenSaid = 0.015

// doubtAt is what uneven light adds to a color's doubt, ΔE00: as much of the light
// as it is uneven by, taken as lightness. L* is 116·Y^⅓ − 16 (CIE 15), so that a
// share of the light is a third of that share of L* + 16.
func (l *Lit) doubtAt(of color.Lab) float64 { return l.uneven() * (of.L + 16) / 3 }
