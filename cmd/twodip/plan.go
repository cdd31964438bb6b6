package main

import (
	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

func planCommand(a *app) *cobra.Command {
	var f planFlags
	c := &cobra.Command{
		Use:   "plan",
		Short: "Give every pair its number; plan loads, dips, clay and glaze",
		Long: `Give every single and every ordered pair its tile and its number, place the
tiles in kiln loads, and add up dips, clay and glaze. A number never changes:
run plan again whenever the glaze list, the settings or tiles/plan.csv have
changed.`,
		Args: usageArgs(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return a.plan(f) },
	}
	c.Flags().StringVar(&f.why, "why", "", "explain a tile (17) or a pair by its codes, first and second (W,K), and write nothing")
	c.Flags().BoolVar(&f.needs, "needs", false, "list the glaze and the clay to have ready, and write nothing")
	c.Flags().BoolVar(&f.look, "look", false, "show what the plan would be, and write nothing")
	c.Flags().BoolVar(&f.wish.Anew, "anew", false, "place all tiles that are not fired yet afresh, in as few loads as hold them")
	c.Flags().BoolVar(&f.wish.Yes, "yes", false, "go on even if many tiles would go out of use")
	c.Flags().BoolVar(&f.calendar, "calendar", false, "list the work from clay to wall, its hours and days, and write it to "+calendarFile)
	c.Flags().StringVar(&f.from, "from", "", "the day the calendar begins, like 2026-03-14 (default today)")
	c.MarkFlagsMutuallyExclusive("why", "needs", "look", "calendar")
	return c
}

type planFlags struct {
	why   string
	needs bool
	look  bool

	calendar bool
	from     string

	wish run.PlanWish
}

func (a *app) plan(f planFlags) error {
	if f.why != "" {
		return a.explain(f.why)
	}
	if f.calendar {
		return a.calendar(f)
	}
	do, end := run.Plan, "written to "+record.PlanFile
	if f.needs || f.look {
		do, end = run.LookAtPlan, "nothing is written"
	}
	p, err := do(a.folder(), f.wish)
	switch {
	case err != nil:
		return err
	case f.needs:
		return a.sayNeeds(p.Wall, p.Materials)
	case !f.look:
		a.hintCopies()
	}
	return a.sayPlan(p, end)
}

// explain says why one tile or one pair is as it is.
func (a *app) explain(what string) error {
	e, err := run.Explain(a.folder(), what)
	if err != nil {
		return err
	}
	if a.json {
		return a.done(e, "", "")
	}
	a.step("%s", e.Said)
	for _, l := range e.Why {
		a.step("%9s  %s", l.About, l.Says)
	}
	return nil
}
