package measure

import (
	"cmp"
	"image"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/stat"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/geometry"
)

// grid is how a reference's patches stand: rows of columns.
type grid struct{ rows, columns int }

// gridsOf are the ways n patches may stand. Names like A1 to D6 say it: a
// letter a row. Otherwise every way that is not longer than 3 to 1, and strips.
func gridsOf(ps []color.Patch) []grid {
	rows := map[string]bool{}
	for _, p := range ps {
		letters := strings.TrimRight(p.Name, "0123456789")
		if letters == "" || letters == p.Name {
			rows = nil
			break
		}
		rows[letters] = true
	}
	if n := len(rows); n > 0 && len(ps)%n == 0 {
		return []grid{{n, len(ps) / n}}
	}
	var out []grid
	for r := 1; r <= len(ps); r++ {
		if c := len(ps) / r; r*c == len(ps) && (max(r, c) <= 3*min(r, c) || r == 1 || c == 1) {
			out = append(out, grid{r, c})
		}
	}
	return out
}

// patchCore is the share of a patch's width that is looked at, in its middle.
const patchCore = 0.4

// Bounds on a chart that is believed.
const (
	leastLikely    = 0.8 // correlation of its light with its true light
	mostChartDoubt = 9.0 // ± ΔE00 it would leave: more, and it is not this chart
	clearlyBetter  = 0.7 // what its patches are missed by over the same turned
	mostMiss       = 4.0 // ΔE00 by which its patches are missed when corrected, root mean square
	mostStruckOf   = 0.2 // of its patches that may be hidden or in glare
)

// chartSearch is the search for a chart in one photo.
type chartSearch struct {
	*shot
	light   *Lit
	patches []color.Patch
	place   *geometry.Quad // where the mat has a place for it; nil = anywhere
}

// findChart is the chart that somebody drew in, or the one that the photo, or
// the mat's place for it, shows.
func findChart(s *shot, light *Lit, ask Ask, place *geometry.Quad) *candidateChart {
	c := chartSearch{shot: s, light: light, patches: ask.Patches, place: place}
	var best candidateChart
	if outline, drawn := ask.cardByHand(); drawn {
		best = c.choose(c.ways([]geometry.Quad{outline}, true))
	} else {
		best = c.choose(c.ways(c.findGrids(), false))
	}
	return &best
}

// byPatches corrects by a chart, or by a strip of greys. Where nobody said that one
// is there, it is missed aloud only if something lies in its place on the mat.
func (f *fitting) byPatches(asked bool) {
	chart := f.found.chart
	if chart == nil {
		chart = findChart(f.shot, &f.Light, f.ask, f.found.Card)
	}
	switch {
	case chart.fit != nil:
		f.use(chart.fit)
		f.Used = append(f.Used, chart.quad)
	case asked || f.found.Card != nil && f.covered(f.found.Card.Part(0.3, 0.35, 0.7, 0.65)):
		f.note("the reference was not used: %s", cmp.Or(chart.why,
			"none was found; keep it whole, flat and in the same light as the tile, or give its outline in tiles/by-hand.csv"))
	}
}

// candidateChart is the patches as read at one place, standing and lying in one
// way.
type candidateChart struct {
	quad   geometry.Quad // from the top left of the first patch
	patch  float64       // width of a patch, pixels
	seen   []correct.Seen
	likely float64             // how alike the patches' light and their true light are, up to 1
	fit    *correct.Correction // nil = not believed
	why    string
}

// ways reads the patches in every quad, in each of the ways they can stand and
// lie, the likeliest first. Drawn by hand, they lie as they were drawn.
func (s *chartSearch) ways(quads []geometry.Quad, drawn bool) []candidateChart {
	turns := 4
	if drawn {
		turns = 1
	}
	var out []candidateChart
	var around image.Rectangle
	for _, q := range quads {
		around = around.Union(q.Bounds())
	}
	var m mosaic
	m.read(s.photo, around)
	for _, q := range quads {
		for _, g := range gridsOf(s.patches) {
			for turn := range turns {
				q := q.Turned(turn)
				if seen, ok := s.seePatches(&m, q, g); ok {
					across, _ := q.Size()
					c := candidateChart{quad: q, patch: across / float64(g.columns), seen: seen}
					c.likely = s.likeness(seen)
					out = append(out, c)
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b candidateChart) int { return cmp.Compare(b.likely, a.likely) })
	return out
}

// likeness is the correlation of the patches' light with their true light, on
// the cube-root scale, where tone curves are nearly straight: the least of the
// three channels.
func (s *chartSearch) likeness(seen []correct.Seen) float64 {
	back := s.photo.Profile.ToXYZ.Inverse()
	have, want := make([][]float64, 3), make([][]float64, 3)
	for _, p := range seen {
		x := p.Lab.XYZ()
		r, g, b := back.Times(x.X, x.Y, x.Z)
		for k, v := range [3]float64{r, g, b} {
			have[k] = append(have[k], math.Cbrt(p.RGB[k]))
			want[k] = append(want[k], math.Cbrt(v))
		}
	}
	least := 1.0
	for k := range have {
		if r := stat.Correlation(have[k], want[k], nil); !(r >= least) {
			least = r
		}
	}
	return least
}

// choose believes the likeliest way where its patches fit their file well, and
// clearly better than the likeliest of the other ways: another chart, a
// half-hidden one, or something that is no chart does not.
func (s *chartSearch) choose(ways []candidateChart) candidateChart {
	if len(ways) == 0 {
		return candidateChart{}
	}
	best := ways[0]
	if len(s.patches) > 2 && !(best.likely > leastLikely) {
		best.why = doesNotFit
		return best
	}
	fit, err := correct.Fit(best.seen, s.photo.Profile.ToXYZ)
	if err != nil {
		best.why = err.Error()
		return best
	}
	switch miss := missOf(fit, best.seen); {
	case float64(len(fit.Struck())) > mostStruckOf*float64(len(s.patches)):
		best.why = "too many of its patches are hidden, in glare, or of other colors than its file says"
	case fit.Doubt() > mostChartDoubt || miss > mostMiss:
		best.why = doesNotFit
	case s.rivaled(&best, ways[1:], miss):
		best.why = "its patches fit as well when it is turned, so nothing is sure"
	default:
		best.fit = fit
	}
	return best
}

const doesNotFit = "its patches do not have the colors that its file says: a part is hidden or cut off, the light is mixed, or it is another chart"

// rivaled says whether the patches fit about as well in another place or turned.
func (s *chartSearch) rivaled(best *candidateChart, others []candidateChart, miss float64) bool {
	for _, c := range others {
		if math.Hypot(c.quad[0].X-best.quad[0].X, c.quad[0].Y-best.quad[0].Y) < best.patch/2 {
			continue
		}
		if c.likely < leastLikely {
			return false
		}
		fit, err := correct.Fit(c.seen, s.photo.Profile.ToXYZ)
		return err == nil && clearlyBetter*missOf(fit, c.seen) < miss
	}
	return false
}

// missOf is how far the corrected patches are from their true colors: the root
// mean square of ΔE00, struck ones left out.
func missOf(c *correct.Correction, seen []correct.Seen) float64 {
	var sum float64
	n := 0
	for _, p := range seen {
		if !slices.Contains(c.Struck(), p.Name) {
			d := color.DE00(c.XYZ(p.RGB).Lab(), p.Lab)
			sum += d * d
			n++
		}
	}
	return math.Sqrt(sum / float64(max(1, n)))
}

// seePatches reads the middle of each patch. ok is false where more than a few
// cannot be read.
func (s *chartSearch) seePatches(m *mosaic, q geometry.Quad, g grid) (seen []correct.Seen, ok bool) {
	for i, p := range s.patches {
		u, v := float64(i%g.columns), float64(i/g.columns)
		lo, hi := (1-patchCore)/2, (1+patchCore)/2
		place := q.Part((u+lo)/float64(g.columns), (v+lo)/float64(g.rows), (u+hi)/float64(g.columns), (v+hi)/float64(g.rows))
		if rgb, ok := m.middling(place); ok {
			seen = append(seen, correct.Seen{Patch: p, RGB: s.light.leveled(place, rgb)})
		}
	}
	return seen, float64(len(s.patches)-len(seen)) <= mostStruckOf*float64(len(s.patches))
}
