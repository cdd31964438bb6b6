package measure

import (
	"cmp"
	"math"
	"slices"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/mark"
	"github.com/twodip/twodip/tiles/photo"
	"github.com/twodip/twodip/tiles/target"
)

// level is how the light falls across a photo, as white paper in it shows.
type level struct {
	correct.Light
	w, h float64
	laid *correct.Glare // light that is taken off first; nil = none
}

// leveled is what a place in the photo would show, were the light even; where there
// is no level it is what it shows.
func (l *level) leveled(x, y float64, rgb correct.RGB) correct.RGB {
	switch {
	case l == nil:
		return rgb
	case l.laid != nil:
		return l.laid.Level(x/l.w, y/l.h, rgb)
	}
	return l.Level(x/l.w, y/l.h, rgb)
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
	inside bool            // the light was read among the tiles, not around them alone
}

// readLight reads the light from places where the photo shows white paper, and
// what black ink gives back of it.
func readLight(p *photo.Photo, found *Found) Lit {
	var m mosaic
	m.read(p, p.Image.Bounds())
	total := 0.0
	for _, q := range found.Paper {
		total += q.Area()
	}
	side := math.Sqrt(total / paperCells)
	w, h := float64(p.Width()), float64(p.Height())
	spots, ink := m.spots(found.Paper, side, w, h), m.spots(found.Ink, math.Inf(1), w, h)
	l := &level{Light: correct.LightFrom(spots), w: w, h: h}
	if tags := m.tagSpots(found.Tags, inkOf(l, spots, ink), w, h); len(tags) > 0 {
		l.Light = correct.LightFrom(slices.Concat(spots, tags))
		return Lit{Places: found.Paper, level: l, Paper: l.even(spots), Ink: l.even(ink), inside: true}
	}
	return Lit{Places: found.Paper, level: l, Paper: l.even(spots), Ink: l.even(ink)}
}

// underGlare is the light where a bright spot in the picture is something laid over
// it; ok is false where there is none.
func (l *Lit) underGlare() (under Lit, ok bool) {
	if l.level == nil || l.level.Glare() == nil {
		return under, false
	}
	under = *l
	with := *l.level
	with.laid = l.level.Glare()
	under.level = &with
	return under, true
}

// inkOf is the light of ink over that of paper, in each channel.
func inkOf(l *level, paper, ink []correct.Spot) (out correct.RGB) {
	white, black := l.even(paper), l.even(ink)
	for k := range out {
		if out[k] = usualInk; white[k] > 0 && black[k] > 0 {
			out[k] = min(black[k]/white[k], 2*usualInk)
		}
	}
	return out
}

// usualInk is what ink reflects over what paper does (common practice, no source).
const usualInk = 0.05

// mostTags is how many tags the light is read from at the most, evenly taken.
const mostTags = 400

// tagSpots are the tags of a board as looks at its light. A tag is a few pixels
// across, its white and black blurred into each other; the mean over all of it and
// its white edge is the same however blurred, and how much of it is ink is known.
func (m *mosaic) tagSpots(tags []mark.TagSeen, ink correct.RGB, w, h float64) []correct.Spot {
	var out []correct.Spot
	for i := 0; i < len(tags); i += 1 + len(tags)/mostTags {
		tag := tags[i]
		const edge = 1.0 / target.Cells
		q := tag.Quad.Part(-edge, -edge, 1+edge, 1+edge)
		in, blown := m.within(q)
		cells := float64(len(in)*m.side*m.side) / (tag.Quad.Area() / (target.Cells * target.Cells))
		if blown > 0 || len(in) < leastTag || !(cells > tag.Black) {
			continue
		}
		s := correct.Spot{Sheet: 1}
		for _, l := range in {
			for k := range s.RGB {
				s.RGB[k] += float64(l[k]) / float64(len(in))
			}
		}
		for k := range s.RGB {
			s.RGB[k] /= 1 - (1-ink[k])*tag.Black/cells
		}
		c := q.Part(0.5, 0.5, 1, 1)[0]
		s.X, s.Y = c.X/w, c.Y/h
		out = append(out, s)
	}
	return out
}

// leastTag is how many blocks of the picture a tag must cover to be looked at.
const leastTag = 20

// leveled is what a place would show, were the light even.
func (l *Lit) leveled(place geometry.Quad, rgb correct.RGB) correct.RGB {
	c := place.Part(0.5, 0.5, 1, 1)[0]
	return l.level.leveled(c.X, c.Y, rgb)
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

// From where a shadow's edge is said. On simulated mats 0.005 was reached without
// one, by 95 %, and 0.028 with one; on boards, where a tag tells less closely than a
// mat's paper, 0.018 and 0.076.
const (
	unevenSaid        = 0.015
	unevenSaidOnBoard = 0.03
)

// shadowed says that the edge of a shadow lies in the picture.
func (l *Lit) shadowed() bool {
	if l.inside {
		return l.uneven() > unevenSaidOnBoard
	}
	return l.uneven() > unevenSaid
}

// insideShare is the share of its unevenness by which light that was read among the
// tiles may still be off, 95 %: on simulated boards in shadow the light that was
// left unfollowed was a quarter of it, root mean square.
const insideShare = 0.5

// leftTimes is how much further off than the paper's places the light on a tile may
// be, which lies between them, 95 %: on simulated mats in hard light and shadow.
const leftTimes = 4.0

// doubtAt is what uneven light adds to a color's doubt, ΔE00: as much of the light
// as it is uneven by, or a share of that, and what could not be followed of it, taken
// as lightness. L* is 116·Y^⅓ − 16 (CIE 15), so that a share of the light is a third
// of that share of L* + 16.
func (l *Lit) doubtAt(of color.Lab) float64 {
	if l.level == nil {
		return 0
	}
	off := math.Hypot(l.uneven(), leftTimes*l.level.Left())
	if l.inside {
		off = insideShare * l.uneven()
	}
	return off * (of.L + 16) / 3
}

// tintDoubt is what a color may be off by, ΔE00, where the light's red or blue beside
// its green is e times what it is on the reference: two kinds of lamp show a glaze
// otherwise than a grey. From simulated mats by a chart, where light mixes.
const tintDoubt = 10.0

// tintedAt is what light of another color than on the paper taken together adds to
// the doubt at a place.
func (l *Lit) tintedAt(place geometry.Quad) float64 {
	if l.level == nil || l.inside {
		return 0
	}
	c := place.Part(0.5, 0.5, 1, 1)[0]
	at := l.level.At(c.X/l.level.w, c.Y/l.level.h)
	return tintDoubt * max(math.Abs(math.Log(at[0]/at[1])), math.Abs(math.Log(at[2]/at[1])))
}
