package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/run"
)

func checkCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "check",
		Short: "Read everything, say what is wrong, write nothing",
		Args:  usageArgs(cobra.NoArgs),
		RunE:  func(*cobra.Command, []string) error { return a.check() },
	}
}

func (a *app) check() error {
	r, err := produce.Check(a.folder())
	if err != nil {
		return err
	}
	for _, n := range english.First(mostNotes, r.Notes) {
		a.step("note: %s", n)
	}
	if !a.json {
		a.complainAll(r.Problems)
	}
	summary := fmt.Sprintf("%s, %s, %s, %s, %s, %s in the log: ", english.Count(r.Glazes, "glaze", "glazes"), english.Count(r.Tiles, "tile", "tiles"),
		english.Count(r.Photos, "photo", "photos"), english.Count(r.Readings, "reading", "readings"), english.Count(r.Pages, "page", "pages"),
		english.Count(r.Pieces, "piece", "pieces"))
	if len(r.Problems) == 0 {
		return a.done(r, summary+"nothing wrong", nextStep(r))
	}
	if err := a.done(r, summary+english.Count(len(r.Problems), "problem", "problems"), "mend them, then: twodip check"); err != nil {
		return err
	}
	return errSaid
}

// nextStep is the first step of the main job that is still to do.
func nextStep(r run.Checked) string {
	switch {
	case r.Tiles == 0:
		return "twodip plan"
	case r.Photos > 0 && r.Readings == 0:
		return "twodip measure"
	case r.Readings > 0:
		return "twodip build"
	}
	return "twodip print"
}
