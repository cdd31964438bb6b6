package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/drift"
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/record"
)

func planCommand(a *app) *cobra.Command {
	var f planFlags
	c := &cobra.Command{
		Use:   "plan",
		Short: "Give every pair its number; plan loads, dips, clay and glaze",
		Long: `Give every single and every ordered pair its tile and its number, place the
tiles in kiln loads, and sum up dips, clay and glaze. A number never changes:
run plan again whenever the glaze list, the settings or tiles/plan.csv have
changed.`,
		Args: usageArgs(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return a.plan(f) },
	}
	c.Flags().StringVar(&f.why, "why", "", "explain a tile (17) or a pair by its codes, first and second (W,K), and write nothing")
	c.Flags().BoolVar(&f.needs, "needs", false, "list the glaze and the clay to have ready, and write nothing")
	c.Flags().BoolVar(&f.look, "look", false, "say what the plan would be, and write nothing")
	c.Flags().BoolVar(&f.anew, "anew", false, "place every tile that is not fired again, in as few loads as hold them")
	c.MarkFlagsMutuallyExclusive("why", "needs", "look")
	return c
}

type planFlags struct {
	why   string
	needs bool
	look  bool
	anew  bool
}

func (a *app) plan(f planFlags) error {
	if f.why != "" || f.needs || f.look {
		return a.showPlan(f)
	}
	release, err := a.folder().Lock()
	if err != nil {
		return err
	}
	defer release()
	w, p, err := a.makePlan(f.anew)
	if err != nil {
		return err
	}
	a.hintCopies()
	if err := record.WriteTiles(a.folder(), p.Tiles); err != nil {
		return err
	}
	return a.sayPlan(w, p, "written to "+record.PlanFile)
}

// showPlan makes the plan for looking at only.
func (a *app) showPlan(f planFlags) error {
	w, p, err := a.makePlan(f.anew)
	switch {
	case err != nil:
		return err
	case f.why != "":
		return a.sayWhy(w, f.why)
	case f.needs:
		return a.sayNeeds(w, p.Materials)
	}
	return a.sayPlan(w, p, "nothing is written")
}

// makePlan reads the wall and plans it; the wall comes back with the plan's rows.
func (a *app) makePlan(anew bool) (tiles.Wall, plan.Plan, error) {
	w, err := a.load()
	if err != nil {
		return w, plan.Plan{}, err
	}
	wish := plan.Wish{Wall: w, Anew: anew}
	if wish.Batches, err = record.ReadBatches(a.folder(), w.Log.Dates); err != nil {
		return w, plan.Plan{}, err
	}
	if wish.Firings, err = record.ReadLoads(a.folder(), w.Log.Dates); err != nil {
		return w, plan.Plan{}, err
	}
	wish.Moved = drift.Compare(w, wish.Batches, wish.Firings).Due()
	p, err := plan.Make(wish)
	w.Tiles = p.Tiles
	return w, p, err
}

// sayWhy explains one tile or one pair.
func (a *app) sayWhy(w tiles.Wall, what string) error {
	pair, t, err := pairOrTile(w, what)
	if err != nil {
		return err
	}
	lines := plan.Why(w, pair)
	title := w.Say(pair)
	if t.Number > 0 {
		lines = plan.WhyTile(w, t)
		title = fmt.Sprintf("tile %d: %s, %s", t.Number, title, t.Status)
	}
	if a.json {
		return a.done(whyOf(pair, t, lines), "", "")
	}
	a.step("%s", title)
	for _, l := range lines {
		a.step("%9s  %s", l.About, l.Says)
	}
	return nil
}

// pairOrTile reads what to explain: a tile's number, or codes as plan.csv has
// them, "W,K" for 1st W → 2nd K and "W" or "W," for W alone. A number that is
// also a glaze's code means the tile.
func pairOrTile(w tiles.Wall, what string) (tiles.Pair, tiles.Tile, error) {
	if n, err := tiles.ParseNumber(what); err == nil {
		if t, ok := w.Tile(n); ok {
			return t.Pair, t, nil
		}
	}
	first, second, _ := strings.Cut(strings.ReplaceAll(what, "→", ","), ",")
	pair := tiles.Pair{First: strings.TrimSpace(first), Second: strings.TrimSpace(second)}
	for _, code := range []string{pair.First, pair.Second} {
		if code == "" && pair.First != "" {
			continue
		}
		if _, ok := tiles.FindGlaze(w.Glazes, code); !ok {
			return pair, tiles.Tile{}, usageError{fmt.Errorf("--why %s: there is no tile and no glaze %q; write a tile's number (17) or two codes, first and second (W,K)", what, code)}
		}
	}
	t, _ := w.Own(pair)
	return pair, t, nil
}
