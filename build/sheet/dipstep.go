package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// sayOnce leaves out the notes that every bucket of a run has: the run's
// heading says them.
func sayOnce(steps []plan.Step) []plan.Step {
	count := map[string]int{}
	for _, step := range steps {
		for _, note := range step.Notes {
			count[note]++
		}
	}
	out := slices.Clone(steps)
	for i := range out {
		out[i].Notes = slices.DeleteFunc(slices.Clone(out[i].Notes), func(note string) bool {
			return len(steps) > 1 && count[note] == len(steps)
		})
	}
	return out
}

// The step's words take the left; then a box a stirring; then the tiles.
const (
	stepWide = 52.0
	stirWide = 17.0
)

// boxes is how a session's tiles stand in rows: a box to tick, the number, and
// the pair under it as a check.
type boxes struct {
	wide, tall float64
	air        float64 // below a bucket
	per        int     // a row
	pair       style
}

// boxesFor sets the boxes for the longest pair of the session, close together
// or with air between the rows.
func (d *dipSheet) boxesFor(close bool) boxes {
	b := boxes{tall: 9.6, air: 1.6, pair: style{pt: 6.5}}
	if close {
		b.tall, b.air = 8.6, 0.8
	}
	longest := 0.0
	for _, run := range []plan.Run{d.dips.First, d.dips.Second} {
		for _, step := range run.Steps {
			for _, t := range step.Tiles() {
				longest = max(longest, d.width(b.pair, d.check(t)), 5.6+d.width(numberOf, t.Number.String()))
			}
		}
	}
	room := d.body().w - stepWide - stirWide
	b.per = max(1, int(room/(longest+3)))
	b.wide = room / float64(b.per)
	return b
}

var numberOf = style{pt: 11, figures: true}

// check is a tile's coats by code, to be held against the tile in the hand.
func (d *dipSheet) check(t tiles.Tile) string {
	if t.Single() {
		return tiles.Apart(clean(t.First)) + " whole"
	}
	return tiles.Apart(clean(t.First)) + " → " + tiles.Apart(clean(t.Second))
}

func (d *dipSheet) stepTall(step plan.Step) float64 {
	return max(d.stepWords(area{w: stepWide - 4}, step, 0, false), d.stepTicks(area{}, step, false)) + d.boxes.air
}

// step draws one bucket: what it is and what to mind, then its tiles.
func (d *dipSheet) step(a area, n int, step plan.Step) {
	d.line(a.x, a.y, a.x+a.w, a.y, thin)
	d.stepWords(area{a.x, a.y, stepWide - 4, a.h}, step, n, true)
	d.stepTicks(area{a.x + stepWide, a.y, a.w - stepWide, a.h}, step, true)
}

// stepWords prints a bucket's place in the run, its code, name and notes, and
// returns the height they take; with draw false it only measures.
func (d *dipSheet) stepWords(a area, step plan.Step, n int, draw bool) float64 {
	code := clean(step.Glaze.Code)
	indent := d.width(text, "00") + 2
	left := indent + d.width(head, code) + 2.5
	name, err := d.fit(clean(step.Glaze.Name), text, a.w-left, 12, leastLabel)
	if err != nil {
		name = block{}
		d.codeAlone(code, "the dip runs")
	}
	if draw {
		d.text(a.x, a.y+5.2, text, fmt.Sprint(n))
		d.text(a.x+indent, a.y+5.2, head, code)
		d.block(a.x+left, a.y+5.2-name.capHeight(), name)
	}
	y := a.y + max(6.6, 5.8-name.capHeight()+name.tall())
	for _, note := range stepNotes(step) {
		if draw {
			d.para(a.x+indent, y, a.w-indent, small, clean(note))
		}
		y += d.paraTall(a.w-indent, small, clean(note)) + 0.3
	}
	return y - a.y
}

// stepNotes is what to write and what to mind at a bucket: its specific gravity
// as it should be and as it is, and the seconds a flow cup takes.
func stepNotes(step plan.Step) []string {
	now := "SG _____  flow _____ s"
	if step.Glaze.SG > 0 {
		now = fmt.Sprintf("SG %.2f _____  flow _____ s", step.Glaze.SG)
	}
	if len(step.Notes) == 0 {
		return []string{now}
	}
	return []string{now, strings.Join(step.Notes, "; ")}
}

// stepTicks draws a box for every stirring and, after it, a box, a number and
// its pair for every tile until the next one; it returns the height they take.
func (d *dipSheet) stepTicks(a area, step plan.Step, draw bool) float64 {
	b := d.boxes
	y := a.y + 0.6
	for i, tiles := range step.Parts {
		if draw {
			word := "stirred"
			if i > 0 {
				word = "again"
			}
			d.choice(a.x, y+4.6, small, word)
		}
		for j, t := range tiles {
			if draw {
				d.tickTile(a.x+stirWide+float64(j%b.per)*b.wide, y+float64(j/b.per)*b.tall, t)
			}
		}
		y += float64((len(tiles)+b.per-1)/b.per)*b.tall + 0.4
	}
	return y - a.y
}

func (d *dipSheet) tickTile(x, y float64, t tiles.Tile) {
	d.tick(x, y+4.6, style{pt: 12})
	d.number(x+5.6, y+4.6, numberOf, t.Number)
	st := d.boxes.pair
	if t.Single() {
		st = st.heavy()
	}
	d.text(x, y+4.9+st.leading(), st, d.check(t))
}
