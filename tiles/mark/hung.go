package mark

import (
	"cmp"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/target"
)

// planned are the tags that may hang, upright and upside down.
func planned(places []target.Place) []word {
	var out []word
	for _, pl := range places {
		upright, turned := newWord(pl.Tile, pl.Tag.Bits), newWord(pl.Tile, pl.Tag.Bits.Turn().Turn())
		turned.turned = true
		out = append(out, upright, turned)
	}
	return out
}

// reading is a tag as read, and where it was seen.
type reading struct {
	Hung
	seen   geometry.Point
	anchor bool
}

// tags reads the tag of every place, on all processors.
func (p Plane) tags(v *View, places []target.Place, words []word) []reading {
	out := make([]reading, len(places))
	onAllProcessors(len(places), func(i int) { out[i] = p.tag(v, places[i], words) })
	return out
}

// A tag is taken for read when it fits a planned one this well and the next
// best this much worse; the one that should hang there is believed sooner.
const (
	wellRead      = 0.8
	wellAhead     = 0.22
	expectedScore = 0.5
	expectedLead  = 0.05
)

// soft are the blurs that tags are compared with, as times of blurring.
var tagBlurs = []int{1, 5, 12}

// tag reads one place.
func (p Plane) tag(v *View, pl target.Place, words []word) reading {
	out := reading{Hung: Hung{Place: pl}}
	if !v.ahead(pl.Tag.X, pl.Tag.Y) {
		return out
	}
	pa := p.straighten(v, pl.Tag)
	if !pa.inside {
		return out
	}
	x, y, _ := pa.best(border, perCell*cellsAround, perCell*cellsAround, perCell*cellsAround, 2)
	for range 2 {
		c := pa.candidates(words, pl.Tile, x, y)
		out.Match = c.score
		if c.score < expectedScore {
			return out
		}
		s := drawCode(c.bits).blurred(c.blur).stencil(0)
		x, y, _ = pa.best(s, x, y, 3, 1)
		if known := c.hangs(pl.Tile); c.score >= wellRead && c.lead >= wellAhead || known && c.lead >= expectedLead {
			out.Read, out.Turned = c.tile, c.turned
			dx, dy := pa.place(s, x, y)
			out.seen = v.See(pl.Tag.X+pl.Tag.W/2+dx, pl.Tag.Y+pl.Tag.H/2+dy, 0)
			out.anchor = c.score > 0.6
			out.Paper = pa.white(x, y)
		}
	}
	return out
}

// candidate is a planned tag compared with what is seen.
type candidate struct {
	word
	blur        int
	score, lead float64 // how well it fits, and how much better than the next
}

// candidates compares the few planned tags whose cells fit best, and the one
// that should hang here, with the cells as blur leaves them.
func (p *patch) candidates(words []word, here tiles.Number, x, y int) candidate {
	const few = 5
	cells := p.cellsAt(x, y)
	var list [few + 1]candidate
	for i := range words {
		c := candidate{word: words[i], score: words[i].alike(&cells)}
		if c.hangs(here) {
			list[few] = c
			continue
		}
		for k := range few {
			if c.score > list[k].score {
				c, list[k] = list[k], c
			}
		}
	}
	for i := range list {
		if list[i].score = -1; list[i].tile != 0 {
			p.compare(&list[i], x, y)
		}
	}
	slices.SortFunc(list[:], func(a, b candidate) int { return cmp.Compare(b.score, a.score) })
	list[0].lead = list[0].score - max(list[1].score, 0)
	return list[0]
}

// compare gives the candidate the best of its matches, cells only, over the blurs.
func (p *patch) compare(c *candidate, x, y int) {
	d, done := drawCode(c.bits), 0
	for _, times := range tagBlurs {
		d = d.blurred(times - done)
		done = times
		if m := p.match(d.stencil(2*perCell), x, y); m > c.score {
			c.score, c.blur = m, times
		}
	}
}

// white is the light of the paper about the tag at a shift: the median of the
// outer ring of samples, one in from the edge.
func (p *patch) white(x, y int) float64 {
	var v []float64
	for i := 1; i < windowSide-1; i++ {
		for _, at := range [4][2]int{{i, 1}, {i, windowSide - 2}, {1, i}, {windowSide - 2, i}} {
			v = append(v, float64(p.light[(y+at[1])*patchSide+x+at[0]]))
		}
	}
	slices.Sort(v)
	return v[len(v)/2]
}
