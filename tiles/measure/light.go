package measure

import (
	"cmp"
	"math"
	"slices"

	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/mark"
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

// readLight reads the light from places where the photo shows white paper, and
// what black ink gives back of it.
func (s *scene) readLight(paper, ink []mark.Quad) {
	var m mosaic
	m.read(s.photo, s.photo.Image.Bounds())
	total := 0.0
	for _, q := range paper {
		total += q.Area()
	}
	side := math.Sqrt(total / paperCells)
	w, h := float64(s.photo.Width()), float64(s.photo.Height())
	for _, q := range paper {
		s.papers = append(s.papers, quadOf(q))
	}
	spots := m.spots(paper, side, w, h)
	s.light = &level{correct.LightFrom(spots), w, h}
	s.paper = s.light.even(spots)
	s.ink = s.light.even(m.spots(ink, math.Inf(1), w, h))
}

// spots looks at cells of about side pixels in quads of one surface.
func (m *mosaic) spots(quads []mark.Quad, side, w, h float64) []correct.Spot {
	var out []correct.Spot
	for _, q := range quads {
		for _, part := range quadOf(q).cut(side) {
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

// cut cuts the quad into about square cells of side pixels.
func (q Quad) cut(side float64) []Quad {
	across, down := q.size()
	nx, ny := max(1, math.Round(across/side)), max(1, math.Round(down/side))
	var out []Quad
	for i := range int(nx) {
		for j := range int(ny) {
			u, v := float64(i), float64(j)
			out = append(out, q.Part(u/nx, v/ny, (u+1)/nx, (v+1)/ny))
		}
	}
	return out
}

// middling is the light in the quad that is the median by its green, a mean of
// the fifth of the blocks about it; ok is false where the quad is blown or
// hardly covers a block.
func (m *mosaic) middling(q Quad) (rgb correct.RGB, ok bool) {
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
func (m *mosaic) within(q Quad) (in [][3]float32, blown int) {
	forward := q.projection()
	back := forward.Inverse()
	part := m.blocksIn(q.Bounds())
	for y := part.Min.Y; y < part.Max.Y; y++ {
		for x := part.Min.X; x < part.Max.X; x++ {
			px, py := m.center(x, y)
			switch u, v := apply(&back, px, py); {
			case u < 0 || v < 0 || u >= 1 || v >= 1:
			case m.blown[y*m.w+x]:
				blown++
			default:
				in = append(in, m.light[y*m.w+x])
			}
		}
	}
	return in, blown
}

// size is the length of the quad across and down, in pixels.
func (q Quad) size() (across, down float64) {
	d := func(a, b Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }
	return (d(q[0], q[1]) + d(q[3], q[2])) / 2, (d(q[0], q[3]) + d(q[1], q[2])) / 2
}
