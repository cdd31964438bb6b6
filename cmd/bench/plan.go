package bench

import (
	"errors"
	"strconv"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

func planRoom() room {
	return room{path: "/plan", name: "Plan", file: "plan", wall: true, show: (*Bench).showPlan,
		does: map[string]does{"apply": (*Bench).applyPlan, "undo": (*Bench).undoPlan, "rule": (*Bench).rulePair, "part": (*Bench).beginPart},
		more: map[string]moreWays{"cost": (*Bench).partCost},
	}
}

// planPage is what the page shows.
type planPage struct {
	Wrong    []string // why no plan can be made
	Headline string   // "16 new tiles, half a load, 12 min of dipping"
	Differs  bool     // the plan would change something
	Anew     bool     // all that is not fired is placed afresh
	Seen     string   // of the plan
	Lines    []run.Line
	Whole    string
	Remarks  []string
	Asks     []string // what the person had better see first
	Recoded  bool     // it asks because a code was typed over
	Missed   bool     // the person has not said yes
	Earlier  []earlierPlan
	Pair     *pairAsked
	Part     partForm
	Grid     wallGrid
}

// earlierPlan is a version of the plan that can be brought back.
type earlierPlan struct {
	Turn       int
	When, Says string
	Seen       string // of the plan as it is
}

func (planPage) Reads() []string {
	return []string{content.SettingsFile, content.GlazesCSV, content.GlazesYAML, content.GlazesXLSX, content.GlazesODS, record.PlanFile, "tiles/batches.csv", "tiles/loads.csv"}
}

func (planPage) Script() string { return "plan.js" }

func (b *Bench) showPlan(a *asked) (any, error) { return newPlanPage(a) }

// newPlanPage looks at the plan that would be made; what keeps one from being
// made stands on the page, for it is mended on others.
func newPlanPage(a *asked) (planPage, error) {
	page := planPage{Anew: a.FormValue("anew") != ""}
	p, err := run.LookAtPlan(a.dir, run.PlanWish{Anew: page.Anew})
	if err != nil {
		page.Wrong = sentences(err)
		page.Earlier, err = earlierPlans(a.dir)
		return page, err
	}
	cost := p.Cost()
	page.Headline, page.Differs, page.Seen = p.Headline(cost), p.Differs(a.dir), p.Seen()
	page.Lines, page.Whole, page.Remarks = p.Lines(), cost.Whole(), p.Remarks()
	for _, ask := range p.Asks(a.dir) {
		page.Asks, page.Recoded = append(page.Asks, ask.What), page.Recoded || ask.File != record.PlanFile
	}
	_, seen, err := run.Look(a.dir, content.SettingsFile)
	if err != nil {
		return page, err
	}
	page.Part, page.Grid = newPartForm(p, cost, seen), newWallGrid(p)
	page.Pair = newPairAsked(a, p, seen)
	page.Earlier, err = earlierPlans(a.dir)
	return page, err
}

// mostEarlier is how many earlier plans are offered.
const mostEarlier = 6

// earlierPlans lists the versions of the plan that are not what it is now.
func earlierPlans(dir folder.Folder) ([]earlierPlan, error) {
	kept, err := run.Earlier(dir)
	if err != nil {
		return nil, err
	}
	_, seen, err := run.Look(dir, record.PlanFile)
	var out []earlierPlan
	for _, k := range kept {
		if k.File != record.PlanFile || k.Now || len(out) == mostEarlier {
			continue
		}
		out = append(out, earlierPlan{Turn: k.Turn, When: k.At.Format("2 Jan 2006, 15:04:05"), Says: k.Says, Seen: seen})
	}
	return out, err
}

// applyPlan writes the plan that the person has looked at, and no other.
func (b *Bench) applyPlan(a *asked) (string, error) {
	wish := run.PlanWish{Anew: a.FormValue("anew") != "", Yes: a.FormValue("yes") != "", Seen: a.FormValue("seen")}
	p, err := run.Plan(a.dir, wish)
	var stale run.ErrStale
	var asks tiles.Problems
	switch {
	case errors.As(err, &stale):
		return b.notes.leave("/plan", note{Said: []string{"Nothing was written: a file of the wall was changed since you looked. This is what the plan would do now."}}), nil
	case !wish.Yes && errors.As(err, &asks) && len(p.Asks(a.dir)) > 0:
		page, err := newPlanPage(a)
		page.Missed = true
		return "", errors.Join(err, again{page})
	case err != nil:
		return "", err
	}
	return b.notes.leave("/plan", note{Said: []string{"Written to " + record.PlanFile + ": " + p.Summary() + "."}, Next: afterPlan(p)}), nil
}

// afterPlan is the next step: what is to be made is printed first.
func afterPlan(p run.Planned) *link {
	switch {
	case p.Materials.Tiles > 0:
		return &link{Href: "/sheets", Text: "Print labels and sheets"}
	case len(p.Waiting) > 0:
		return &link{Href: "/photographs", Text: "Bring the photographs"}
	}
	return &link{Href: "/site", Text: "Make the site"}
}

func (b *Bench) undoPlan(a *asked) (string, error) {
	turn, err := strconv.Atoi(a.FormValue("version"))
	if err != nil || turn < 1 {
		return "", tiles.Problem{File: record.PlanFile, What: "no earlier version was chosen", Do: "choose one on the page"}
	}
	k, err := run.Restore(a.dir, run.RestoreWish{File: record.PlanFile, Turn: turn, Seen: a.FormValue("seen")})
	if err != nil {
		return "", err
	}
	return b.notes.leave("/plan", note{Said: []string{
		"The plan is as it was on " + k.At.Format("2 Jan 2006, 15:04:05") + " again. Numbers that were given since stay given; what it was before this is kept.",
		"Below is what the plan would do now, from the glaze list and the settings as they are."}}), nil
}
