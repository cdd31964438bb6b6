package main

import (
	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles/drift"
	"github.com/twodip/twodip/tiles/run"
)

func driftCommand(a *app) *cobra.Command {
	var all bool
	c := &cobra.Command{
		Use:   "drift",
		Short: "Compare each bucket's re-tests with the original tile",
		Long: `Compare each bucket's re-tests (tiles fired again after a remix) with the
original tile on the wall, and the controls (the same tile in every load) with
each other: a change that the controls show too is the firing's, not the
bucket's. A bucket no longer matches where the difference is noticeable and
larger than its doubt.

Photograph the old and the new tile side by side on one mat (print mat --pair):
their difference is then good to about one ΔE00, on top of what two tiles from
one bucket differ anyway. A photo of the whole wall with both on it serves too. From two photos under different lights it is only good to about six, and
drift says that it cannot tell.`,
		Args: usageArgs(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return a.drift(all) },
	}
	c.Flags().BoolVar(&all, "all", false, "also the buckets that match and those with nothing to compare")
	return c
}

func (a *app) drift(all bool) error {
	d, err := run.Drift(a.folder())
	if err != nil {
		return err
	}
	a.hintCopies()
	for _, b := range d.Buckets {
		if all || b.Speaks() || b.State == drift.Untried {
			a.step("%s", b.Say())
			for _, sentence := range b.Words {
				a.step("    %s", sentence)
			}
		}
	}
	for _, s := range d.SayShifts() {
		a.step("%s", s)
	}
	for _, n := range d.Notes {
		a.step("%s", n)
	}
	count := d.Count()
	next := ""
	switch {
	case count[drift.Changed] > 0:
		next = "twodip plan, which numbers their tiles again"
	case count[drift.Unclear] > 0:
		next = "twodip print mat --pair; lay each re-test and its tile side by side on it, photograph them, then twodip measure"
	case count[drift.Untried] > 0:
		next = "twodip plan, then fire the re-tests and photograph each beside its tile: twodip print mat --pair"
	}
	return a.done(d, d.Summary(), next)
}
