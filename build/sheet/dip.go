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
// where the plan puts them together: all first coats bucket by bucket, then all second coats, with a box to tick a tile.
func Dips(w io.Writer, job Job) (pages int, err error) {
	s, err := newPinned(job, "Dip runs", "Open each bucket once a run, in this order, and dip the tiles in the order printed.", false)
	if err != nil {
		return 0, err
	}
	s.written = true
	f := s.flow()
	for _, session := range s.sessionsDue() {
		d := plan.DipRuns(job.Wall, session...)
		s.dipHead(f, d)
		s.dipRun(f, loadsOf(d), d.First)
		if len(d.Second.Steps) > 0 {
			f.turn()
			s.dipRun(f, loadsOf(d), d.Second)
		}
		f.turn()
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

// loadsOf names what is dipped in one go: "Load 3", "Loads 4 to 6".
func loadsOf(d plan.Dips) string {
	if d.Last == d.Load {
		return fmt.Sprintf("Load %d", d.Load)
	}
	return fmt.Sprintf("Loads %d to %d", d.Load, d.Last)
}

// dipHead says which load it is and what dipping in runs saves.
func (s *pinned) dipHead(f *flow, d plan.Dips) {
	f.add(14, 40, func(a area) {
		wide := s.text(a.x, a.y+6, head, loadsOf(d))
		s.text(a.x+wide+4, a.y+6, text, fmt.Sprintf("%d dips, %s, %d bucket openings",
			d.Total.Dips, minutes(d.Total.Minutes), d.Total.Openings))
		s.text(a.x, a.y+11, small, fmt.Sprintf("Tile by tile it would be %s and %d openings. Gloves on; one bucket open at a time; its tools stay with it.",
			minutes(d.Single.Minutes), d.Single.Openings))
	})
}

func minutes(m float64) string { return fmt.Sprintf("about %.0f minutes", math.Ceil(m)) }

// dipRun adds the buckets of one run. What holds for every bucket is said once.
func (s *pinned) dipRun(f *flow, loads string, r plan.Run) {
	title, said := "1st coats", "from the buckets"
	if r.Coat == 2 {
		title, said = loads+", 2nd coats", "a shorter dip, from a clean cup; throw the rest of the cup away"
		if r.Wait > 0 {
			said = fmt.Sprintf("wait %s minutes after the last 1st coat, until nothing shines; ", mm(r.Wait)) + said
		}
	}
	steps := sayOnce(r.Steps)
	keep := 0.0
	if len(steps) > 0 {
		keep = s.stepTall(steps[0])
	}
	f.add(8, keep+s.paraTall(s.body().w, small, said)+2, func(a area) {
		s.text(a.x, a.y+6.5, head, title)
		s.bookmark(a.y, fmt.Sprintf("%s, %s coats", loads, map[int]string{1: "1st", 2: "2nd"}[r.Coat]))
	})
	ways := s.dipWays(r)
	f.words(small, 0, 0.6, english.Sentence(said))
	for i, way := range ways {
		f.words(small, 0, map[bool]float64{true: 2, false: 0.6}[i == len(ways)-1], english.Sentence(way))
	}
	for i, step := range steps {
		f.add(s.stepTall(step), 0, func(a area) { s.step(a, i+1, step) })
	}
}

// dipWays says how the coat is dipped on the run's pairs and, where there are
// any, on its singles: one sentence each.
func (s *pinned) dipWays(r plan.Run) []string {
	settings := s.job.Wall.Settings
	var pairs, singles bool
	for _, step := range r.Steps {
		for _, t := range step.Tiles() {
			pairs, singles = pairs || !t.Single(), singles || t.Single()
		}
	}
	way := func(p tiles.Pair) string { return plan.CoatWay(settings, settings.Tile.Coats(p)[r.Coat-1]) }
	pair := tiles.Pair{First: "1", Second: "2"}
	single := tiles.Pair{First: "1"}
	switch {
	case !singles:
		return []string{way(pair)}
	case !pairs:
		return []string{"every tile here carries one coat: " + way(single)}
	case way(pair) == way(single):
		return []string{way(pair)}
	}
	return []string{"pairs: " + way(pair), "singles, marked “whole”: " + way(single)}
}

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
	stepWide = 50.0
	stirWide = 19.0
	boxWide  = 18.0 // a tile's box and number
	boxRow   = 7.4
)

func (s *pinned) perRow() int { return int((s.body().w - stepWide - stirWide) / boxWide) }

func (s *pinned) stepTall(step plan.Step) float64 {
	return max(s.stepWords(area{w: stepWide - 4}, step, 0, false), s.stepTicks(area{}, step, false)) + 1.6
}

// step draws one bucket: what it is and what to mind, then its tiles.
func (s *pinned) step(a area, n int, step plan.Step) {
	s.line(a.x, a.y, a.x+a.w, a.y, thin)
	s.stepWords(area{a.x, a.y, stepWide - 4, a.h}, step, n, true)
	s.stepTicks(area{a.x + stepWide, a.y, a.w - stepWide, a.h}, step, true)
}

// stepWords prints a bucket's place in the run, its code, name and notes, and
// returns the height they take; with draw false it only measures.
func (s *pinned) stepWords(a area, step plan.Step, n int, draw bool) float64 {
	code := clean(step.Glaze.Code)
	indent := s.width(text, "00") + 2
	left := indent + s.width(head, code) + 2.5
	name, err := s.fit(clean(step.Glaze.Name), text, a.w-left, 12, leastLabel)
	if err != nil {
		name = block{}
		s.codeAlone(code, "the dip runs")
	}
	if draw {
		s.text(a.x, a.y+6, text, fmt.Sprint(n))
		s.text(a.x+indent, a.y+6, head, code)
		s.block(a.x+left, a.y+6-name.capHeight(), name)
	}
	y := a.y + max(7.6, 6.6-name.capHeight()+name.tall())
	notes := step.Notes
	if step.Glaze.SG > 0 {
		notes = append([]string{fmt.Sprintf("SG %.2f, now ______", step.Glaze.SG)}, notes...)
	}
	for _, note := range notes {
		if draw {
			s.para(a.x+indent, y, a.w-indent, small, clean(note))
		}
		y += s.paraTall(a.w-indent, small, clean(note)) + 0.6
	}
	return y - a.y
}

// stepTicks draws a box for every stirring and, after it, a box and a number
// for every tile until the next one; it returns the height they take.
func (s *pinned) stepTicks(a area, step plan.Step, draw bool) float64 {
	per := s.perRow()
	y := a.y + 1
	for i, part := range step.Parts {
		if draw {
			word := "stirred"
			if i > 0 {
				word = "again"
			}
			s.choice(a.x, y+5, small, word)
		}
		for j, t := range part {
			if draw {
				s.tickTile(a.x+stirWide+float64(j%per)*boxWide, y+float64(j/per)*boxRow, t)
			}
		}
		y += float64((len(part)+per-1)/per)*boxRow + 0.6
	}
	return y - a.y
}

func (s *pinned) tickTile(x, y float64, t tiles.Tile) {
	s.tick(x, y+5, style{pt: 12})
	wide := s.number(x+5.6, y+5, style{pt: 11, figures: true}, t.Number)
	if t.Single() && s.job.Wall.Settings.Tile.Layout != tiles.LayoutWhole {
		s.text(x+6.2+wide, y+5, style{pt: leastLabel}, "whole")
	}
}
