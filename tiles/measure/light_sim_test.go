package measure

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/color/spectral"
	"github.com/twodip/twodip/tiles/target"
)

// litMat is a photo of the mat as figures: what the file holds of its paper, of a
// card and of a tile, without the picture.
type litMat struct {
	page   target.Page
	paper  []correct.Spot
	card   correct.RGB // and where
	cardAt [2]float64
	tile   [][3]float64 // light of cells of the tile, and where
	tileAt [][2]float64
	chart  []correct.Seen
	truth  color.Lab
	own    color.Lab // of the paper, as a chart shows it
	edge   bool
	light  correct.Light
}

// fall is how light falls on a page: a lamp's slope and bow, and in some the edge
// of a shadow, harder or softer.
func fall(r *rand.Rand, edge bool) func(x, y float64) float64 {
	way, slope, bow := 2*math.Pi*r.Float64(), 0.5*r.Float64(), 0.3*r.Float64()
	cx, cy := r.Float64(), r.Float64()
	turn, depth, soft := 2*math.Pi*r.Float64(), 0.2+0.5*r.Float64(), 0.01+0.1*r.Float64()
	ex, ey := 0.25+0.5*r.Float64(), 0.25+0.5*r.Float64()
	raw := func(x, y float64) float64 {
		v := 1 + slope*((x-0.5)*math.Cos(way)+(y-0.5)*math.Sin(way)) - bow*((x-cx)*(x-cx)+(y-cy)*(y-cy))
		if edge {
			d := (x-ex)*math.Cos(turn) + (y-ey)*math.Sin(turn)
			v *= 1 - depth*0.5*(1+math.Erf(d/soft))
		}
		return max(0.1, v)
	}
	most := 0.0
	for i := range 11 {
		for j := range 11 {
			most = max(most, raw(float64(i)/10, float64(j)/10))
		}
	}
	return func(x, y float64) float64 { return raw(x, y) / most }
}

// shootMat takes one.
func shootMat(t *testing.T, b *spectral.Bench, seed uint64, edge bool) litMat {
	r := rand.New(rand.NewPCG(seed, 31))
	page, err := target.Mat(smallWall().Settings)
	require.NoError(t, err)
	m := litMat{page: page, edge: edge}
	light := b.Lights.Of[b.Lights.Names[r.IntN(len(b.Lights.Names))]]
	shot := b.Careful(b.Cameras[r.IntN(len(b.Cameras))], light, r)
	falls := fall(r, edge)
	at := func(x, y float64) (float64, float64) { return x / page.Width, y / page.Height }
	take := func(s *spectral.Spectrum, x, y, noise float64) correct.RGB {
		u, v := at(x, y)
		return correct.RGB(shot.Dimmed(falls(u, v) * (1 + noise*r.NormFloat64())).Take(s))
	}
	sheet := wornPaper(r)
	total := 0.0
	for _, q := range page.Paper {
		total += q.W * q.H
	}
	side := math.Sqrt(total / paperCells)
	for _, q := range page.Paper {
		nx, ny := max(1, math.Round(q.W/side)), max(1, math.Round(q.H/side))
		for i := range int(nx) {
			for j := range int(ny) {
				x, y := q.X+q.W*(float64(i)+0.5)/nx, q.Y+q.H*(float64(j)+0.5)/ny
				u, v := at(x, y)
				m.paper = append(m.paper, correct.Spot{X: u, Y: v, RGB: take(sheet, x, y, 0.003)})
			}
		}
	}
	chart := b.Charts[r.IntN(len(b.Charts))]
	grey := chart.Of["neutral 5 (.70 D)"]
	cx, cy := page.Reference.X+page.Reference.W/2, page.Reference.Y+page.Reference.H/2
	m.cardAt[0], m.cardAt[1] = at(cx, cy)
	m.card = take(scaledTo18(grey), cx, cy, 0.005)
	off := rand.New(rand.NewPCG(seed, 32)) // by what a chart leaves open
	m.own = b.Truth(sheet)
	m.own.L, m.own.A, m.own.B = m.own.L+0.6*off.NormFloat64(), m.own.A+0.6*off.NormFloat64(), m.own.B+0.6*off.NormFloat64()
	for i, name := range chart.Names {
		x, y := cx+10*(float64(i%6)-2.5), cy+10*(float64(i/6)-1.5)
		lab := b.Truth(chart.Of[name])
		u, v := at(x, y)
		m.chart = append(m.chart, correct.Seen{Patch: color.Patch{Name: name, Lab: lab, Neutral: lab.SeemsNeutral()}, RGB: take(chart.Of[name], x, y, 0.005)})
		m.tileAt = append(m.tileAt, [2]float64{u, v})
	}
	chartAt := m.tileAt
	m.tileAt = nil
	m.light = correct.LightFrom(m.paper)
	for i := range m.chart {
		m.chart[i].RGB = m.light.Level(chartAt[i][0], chartAt[i][1], m.chart[i].RGB)
	}
	surface := b.Surfaces[r.IntN(len(b.Surfaces))]
	m.truth = b.Truth(surface)
	gloss := 1 + 0.01*r.NormFloat64() // how a tile's surface takes the light otherwise than a card's
	for i := range 5 {
		for j := range 8 {
			x := page.Tile.X + page.Tile.W*(0.08+0.84*(float64(i)+0.5)/5)
			y := page.Tile.Y + page.Tile.H*(0.08+0.84*(float64(j)+0.5)/8)
			u, v := at(x, y)
			m.tileAt = append(m.tileAt, [2]float64{u, v})
			rgb := correct.RGB(shot.Dimmed(falls(u, v) * gloss).Take(surface))
			m.tile = append(m.tile, rgb)
		}
	}
	return m
}

// scaledTo18 makes a grey of the chart's kind reflect 18 %.
func scaledTo18(s *spectral.Spectrum) *spectral.Spectrum {
	mean := 0.0
	for _, v := range s[8:60] {
		mean += v / 52
	}
	return scaled(s, 0.18/mean)
}

// wornPaper draws an office paper of 82 to 90 % with more or less brightener.
func wornPaper(r *rand.Rand) *spectral.Spectrum {
	var s spectral.Spectrum
	white, glow := 0.82+0.08*r.Float64(), 0.2*r.Float64()
	for i := range s {
		nm := 380 + 5*float64(i)
		s[i] = white*(1-0.6*math.Exp((380-nm)/22)) + glow*math.Exp(-(nm-438)*(nm-438)/(2*18*18))
	}
	return &s
}

// read is the tile's color by a reference, as measure comes to it.
func (m *litMat) read(kind string) (got color.Lab, doubt, uneven float64) {
	light := m.light
	lit := Lit{level: &level{Light: light, w: 1, h: 1}}
	lit.Paper = lit.level.even(m.paper)
	card := light.Level(m.cardAt[0], m.cardAt[1], m.card)
	paper, grey := correct.Seen{Patch: correct.OfficePaper, RGB: lit.Paper}, correct.Seen{Patch: greyCard, RGB: card}
	fix := correct.None(color.SRGBToXYZ)
	var err error
	switch kind {
	case "paper":
		fix, err = correct.FitPaper(paper, nil, color.SRGBToXYZ)
	case "card":
		fix, err = correct.Fit([]correct.Seen{grey}, color.SRGBToXYZ)
	case "paper + card":
		fix, err = correct.FitPaper(paper, &grey, color.SRGBToXYZ)
	case "own paper":
		paper.Patch = correct.OwnPaper(m.own)
		fix, err = correct.FitPaper(paper, nil, color.SRGBToXYZ)
	case "own paper + card":
		paper.Patch = correct.OwnPaper(m.own)
		fix, err = correct.FitPaper(paper, &grey, color.SRGBToXYZ)
	case "chart":
		fix, err = correct.Fit(m.chart, color.SRGBToXYZ)
	}
	if err != nil {
		fix = correct.None(color.SRGBToXYZ) // the paper is blown out
	}
	var sum color.XYZ
	for i, rgb := range m.tile {
		even := correct.RGB(rgb)
		if kind != "none" {
			even = light.Level(m.tileAt[i][0], m.tileAt[i][1], even)
		}
		c := fix.XYZ(even)
		n := float64(len(m.tile))
		sum.X, sum.Y, sum.Z = sum.X+c.X/n, sum.Y+c.Y/n, sum.Z+c.Z/n
	}
	got = sum.Lab()
	return got, math.Hypot(fix.DoubtAt(got), lit.doubtAt(got)), light.Uneven()
}

// Mats as figures, under all published lights, with papers of 82 to 90 % and an
// edge of a shadow across half of them: how far the tile's color is off by each
// reference, and whether its doubt holds.
func TestMatsHoldTheirDoubtInEvenLightAndInShadow(t *testing.T) {
	b := spectral.ReadBench(t)
	n := 60
	if os.Getenv("TWODIP_LONG") == "1" {
		n = 4000
	}
	for _, edge := range []bool{false, true} {
		var uneven []float64
		type row struct{ miss, doubt []float64 }
		rows := map[string]*row{}
		kinds := []string{"none", "paper", "card", "paper + card", "own paper", "own paper + card", "chart"}
		for _, k := range kinds {
			rows[k] = &row{}
		}
		for i := range n {
			m := shootMat(t, b, uint64(i), edge)
			for _, k := range kinds {
				got, doubt, u := m.read(k)
				rows[k].miss, rows[k].doubt = append(rows[k].miss, color.DE00(got, m.truth)), append(rows[k].doubt, doubt)
				if k == "paper" {
					uneven = append(uneven, u)
				}
			}
		}
		slices.Sort(uneven)
		if edge {
			assert.Greater(t, uneven[n/20], unevenSaid, "an edge is said")
		} else {
			assert.Less(t, uneven[n*19/20], unevenSaid, "no edge is said")
		}
		t.Logf("edge %v: uneven p5 %.4f median %.4f p95 %.4f", edge, uneven[n/20], uneven[n/2], uneven[n*19/20])
		for _, k := range kinds {
			held := 0
			for i, m := range rows[k].miss {
				if m <= rows[k].doubt[i] {
					held++
				}
			}
			ms, ds := slices.Sorted(slices.Values(rows[k].miss)), slices.Sorted(slices.Values(rows[k].doubt))
			t.Logf("  %-16s median %5.2f p95 %5.2f holds %5.1f %% median doubt %.1f", k, ms[n/2], ms[n*19/20], 100*float64(held)/float64(n), ds[n/2])
			if k != "none" {
				assert.GreaterOrEqual(t, float64(held), 0.91*float64(n), "%s: within the doubt", k)
				assert.LessOrEqual(t, ms[n/2], map[string]float64{"paper": 3, "card": 3.5, "paper + card": 2.6, "own paper": 2.8, "own paper + card": 2.6, "chart": 1.4}[k], "%s: median", k)
			}
		}
	}
}
