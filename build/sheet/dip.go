package sheet

import (
	"fmt"
	"io"
	"math"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/plan"
)

// Dips writes the dipping of every load that is not fired, several in one go
// where the plan puts them together: all first coats bucket by bucket, then all
// second coats, with a box to tick a tile.
func Dips(w io.Writer, job Job) (pages int, err error) {
	s, err := newPinned(job, "Dip runs", "Open each bucket once a run, in this order, and dip the tiles in the order printed.", false)
	if err != nil {
		return 0, err
	}
	s.written = true
	for _, session := range s.sessionsDue() {
		d := dipSheet{pinned: s, dips: plan.DipRuns(job.Wall, session...)}
		s.addPages(d.pages())
	}
	if len(s.pages) == 0 {
		return 0, ErrNothing
	}
	return s.bind(w)
}

// sessionsDue lists the sessions with a load that is wanted.
func (p *paper) sessionsDue() []plan.Session {
	wanted := map[int]bool{}
	for _, l := range p.loadsDue() {
		wanted[l.Number] = true
	}
	return slices.DeleteFunc(plan.Sessions(p.job.Wall), func(s plan.Session) bool {
		return !slices.ContainsFunc(s, func(l plan.Load) bool { return wanted[l.Number] })
	})
}

// dipSheet is the pages of one session.
type dipSheet struct {
	*pinned
	dips  plan.Dips
	boxes boxes
}

// pages lays the session out as wide as it reads best, and closer where that
// saves a page.
func (d *dipSheet) pages() [][]flowPart {
	d.boxes = d.boxesFor(false)
	pages := spread(d.items(), d.body().h)
	d.boxes = d.boxesFor(true)
	if close := spread(d.items(), d.body().h); len(close) < len(pages) {
		return close
	}
	d.boxes = d.boxesFor(false)
	return pages
}

// items is the session as a list: its head, and each run's head and buckets.
func (d *dipSheet) items() []item {
	items := []item{{flowPart: flowPart{14, d.sessionHead}, head: true}}
	boxes := d.boxes
	for _, run := range []plan.Run{d.dips.First, d.dips.Second} {
		if len(run.Steps) == 0 {
			continue
		}
		items = append(items, d.runHead(run))
		for i, step := range sayOnce(run.Steps) {
			items = append(items, item{flowPart: flowPart{d.stepTall(step), func(a area) {
				drawn := *d
				drawn.boxes = boxes
				drawn.step(a, i+1, step)
			}}})
		}
	}
	return items
}

// loadsOf names what is dipped in one go: "Load 3", "Loads 4 to 6".
func loadsOf(d plan.Dips) string {
	if d.Last == d.Load {
		return fmt.Sprintf("Load %d", d.Load)
	}
	return fmt.Sprintf("Loads %d to %d", d.Load, d.Last)
}

// sessionHead says which load it is and what dipping in runs saves.
func (d *dipSheet) sessionHead(a area) {
	total, single := d.dips.Total, d.dips.Single
	wide := d.text(a.x, a.y+6, head, loadsOf(d.dips))
	d.text(a.x+wide+4, a.y+6, text, fmt.Sprintf("%d dips, %s, %d bucket openings", total.Dips, minutes(total.Minutes), total.Openings))
	d.text(a.x, a.y+11, small, fmt.Sprintf("Tile by tile it would be %s and %d openings. Gloves on; one bucket open at a time; its tools stay with it.",
		minutes(single.Minutes), single.Openings))
}

func minutes(m float64) string { return fmt.Sprintf("about %.0f minutes", math.Ceil(m)) }

// runHead is the head of a run: what holds for every bucket of it, and how its
// tiles go in, in words and drawn.
func (d *dipSheet) runHead(r plan.Run) item {
	title := map[int]string{1: "1st coats", 2: "2nd coats"}[r.Coat]
	loads := loadsOf(d.dips)
	said := d.runWords(r)
	ways := d.dipWays(r)
	tall := 9 + d.paraTall(d.body().w, small, said) + 1.5 + wayTall + 2
	return item{head: true,
		flowPart: flowPart{tall, func(a area) {
			d.text(a.x, a.y+6.5, head, loads+", "+title)
			d.bookmark(a.y, loads+", "+title)
			y := d.para(a.x, a.y+9, a.w, small, said) + 1.5
			wide := a.w / float64(len(ways))
			for i, way := range ways {
				d.dipWay(area{a.x + float64(i)*wide, y, wide - 4, wayTall}, way)
			}
		}},
		again: flowPart{9, func(a area) { d.text(a.x, a.y+6, head, loads+", "+title+", continued") }},
	}
}

// runWords is what holds for every bucket of a run.
func (d *dipSheet) runWords(r plan.Run) string {
	dip := d.job.Wall.Dip
	said := "from the buckets, " + seconds(dip.Seconds) + " in the glaze"
	if r.Coat == 2 {
		said = plan.SecondWordsOf(dip.SecondFrom).Says
		if dip.SecondFrom != tiles.SecondBrush {
			said += "; " + seconds(secondSeconds(dip)) + " in the glaze"
		}
		if r.Wait > 0 {
			said = fmt.Sprintf("wait %s minutes after the last 1st coat, until nothing shines; ", inMM(r.Wait)) + said
		}
	}
	said += ". Write the bucket’s specific gravity and the seconds its glaze takes through the flow cup. Hold each tile against the pair printed by its number. Left and right are the tile’s own, as you look at its front, whichever hand you use"
	return english.Sentence(said)
}

func seconds(s float64) string {
	if s == 1 {
		return "1 second"
	}
	return inMM(s) + " seconds"
}

// secondSeconds is how long a second dip is; one not said is as the first.
func secondSeconds(d tiles.Dip) float64 {
	if d.SecondSeconds > 0 {
		return d.SecondSeconds
	}
	return d.Seconds
}
