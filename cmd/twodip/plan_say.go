package main

import (
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/run"
)

// sayPlan says the plan in aligned lines, numbers first: what there is, what is
// new, what is left out, and what to make now.
func (a *app) sayPlan(p run.Planned, end string) error {
	for _, l := range p.Lines() {
		says := l.Says
		if l.More != "" {
			says += " (" + l.More + ")"
		}
		a.line(l.Count, l.What, l.What, says)
	}
	if whole := run.WholeWords(plan.Stages(p.Wall)); whole != "" {
		a.step("    the whole     %s (plan --calendar)", whole)
	}
	for _, n := range p.Remarks() {
		a.step("note: %s", n)
	}
	if len(p.Gone) > 0 {
		a.hint("a code is renamed with: twodip rename %s %s", p.Gone[0], p.Come[0])
	}
	if p.Fewer {
		a.hint("tiles are placed afresh with: twodip plan --anew")
	}
	return a.done(p, p.Summary()+": "+end, nextAfter(p.Plan))
}

// line says one count, unless it is none.
func (a *app) line(n int, one, more, says string) {
	if n == 1 {
		more = one
	}
	if n > 0 {
		a.step("%5d %-11s %s", n, more, says)
	}
}

// nextAfter is the next step: print what is new, or all of it the first time.
func nextAfter(p plan.Plan) string {
	fresh := len(p.Added) + len(p.Due) + len(p.Moved) + len(p.Controls)
	switch {
	case len(p.Loads) == 0 && p.Materials.Tiles > 0:
		return "put the kiln in wall.yaml right, then: twodip plan"
	case fresh > 0 && fresh < len(p.Tiles):
		return "twodip print --new"
	case len(p.Waiting) > 0:
		return "twodip measure"
	case p.Materials.Tiles == 0:
		return "twodip build"
	}
	return "twodip print"
}
