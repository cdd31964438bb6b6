package main

import (
	"errors"
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/run"
)

func foreseeCommand(a *app) *cobra.Command {
	var f foreseeFlags
	c := &cobra.Command{
		Use:   "foresee",
		Short: "Guess the pairs that are not fired, and say which to fire next",
		Long: `Guess the colors of pairs that are not fired from the singles and pairs that
are, and say how far such guesses can be trusted on this wall: every fired pair
is left out and guessed from the others. If the guesses would be too poor to
help, none are made. Use a guess to choose what to fire; only the fired tile
tells you the color.`,
		Example: "  twodip foresee\n  twodip foresee --next 12 --plan\n  twodip foresee --toward '#5a7f91'\n  twodip foresee --why W,K",
		Args:    usageArgs(cobra.NoArgs),
		RunE: func(c *cobra.Command, _ []string) error {
			f.asked = c.Flags().Changed("toward")
			return a.foresee(f)
		},
	}
	c.Flags().IntVar(&f.wish.Next, "next", 0, "propose this many tiles to fire next: those that tell most about the others")
	c.Flags().StringVar(&f.wish.Toward, "toward", "", "propose tiles whose guess is nearest to a color, a photo or a tile's number")
	c.Flags().BoolVar(&f.wish.Plan, "plan", false, "give the proposed tiles their numbers and loads")
	c.Flags().StringVar(&f.why, "why", "", "explain the guess of one pair by its codes, first and second (W,K)")
	c.MarkFlagsMutuallyExclusive("why", "next")
	c.MarkFlagsMutuallyExclusive("why", "toward")
	c.MarkFlagsMutuallyExclusive("why", "plan")
	return c
}

type foreseeFlags struct {
	wish  run.ForeseeWish
	asked bool // --toward was given
	why   string
}

// check refuses what cannot be meant.
func (f foreseeFlags) check() error {
	switch {
	case f.wish.Next < 0:
		return usageError{fmt.Errorf("--next %d: ask for 1 tile or more", f.wish.Next)}
	case f.asked && f.wish.Toward == "":
		return usageError{errors.New("--toward takes a color in quotes, such as '#5a7f91', a photo or a tile's number")}
	case f.wish.Plan && f.wish.Next == 0 && f.wish.Toward == "":
		return usageError{errors.New("--plan plans the tiles that --next or --toward proposes; give one of them, too")}
	}
	return nil
}

func (a *app) foresee(f foreseeFlags) error {
	if err := f.check(); err != nil {
		return err
	}
	if f.why != "" {
		return a.explainGuess(f.why)
	}
	r, err := run.Foresee(a.folder(), f.wish)
	if err != nil {
		return err
	}
	if !a.json {
		a.showStanding(r)
		a.showNext(r)
	}
	return a.done(r, foreseenSummary(r), foreseenNext(r, f))
}

// explainGuess says what the guess of a pair stands on.
func (a *app) explainGuess(what string) error {
	e, err := run.ExplainGuess(a.folder(), what)
	if err != nil {
		return err
	}
	if a.json {
		return a.done(e, "", "")
	}
	a.step("%s", printable(e.Said))
	for _, line := range e.Lines {
		a.step("  %s", printable(line))
	}
	return nil
}

// showStanding says how well guesses do on this wall.
func (a *app) showStanding(r run.Foreseen) {
	a.line(r.Fired, "fired", "fired", "pairs of two glazes to learn from")
	if r.Speaks {
		a.line(len(r.Guesses), "guess", "guesses", "of pairs that have no reading; the site shows them with guesses: true in wall.yaml")
	}
	for _, note := range r.Notes {
		a.step("note: %s", note)
	}
}

// showNext writes the tiles proposed as a table.
func (a *app) showNext(r run.Foreseen) {
	if len(r.Next) == 0 {
		return
	}
	rows := [][]string{{"", "tile", "load", "glazes", "guess in words"}}
	if r.Wanted != nil {
		a.step("\nwanted: lab(%.1f %.1f %.1f), %s", r.Wanted.L, r.Wanted.A, r.Wanted.B, r.Wanted.Words)
		rows[0][0] = "away"
	}
	for _, c := range r.Next {
		row := []string{"", "–", "–", printable(c.Said), ""}
		if r.Wanted != nil {
			row[0] = strconv.FormatFloat(c.Away, 'f', 1, 64)
		}
		if c.Tile > 0 {
			row[1] = c.Tile.String()
		}
		if c.Load > 0 {
			row[2] = strconv.Itoa(c.Load)
		}
		if c.Guess != nil {
			row[4] = c.Guess.Words
		} else {
			rows[0][4] = ""
		}
		rows = append(rows, row)
	}
	a.step("")
	widths := widest(rows)
	for _, row := range rows {
		a.step("%s", aligned(row, widths))
	}
	a.step("")
}

func foreseenSummary(r run.Foreseen) string {
	switch {
	case r.Planned != nil:
		return fmt.Sprintf("%s proposed and planned: written to tiles/plan.csv", english.Count(len(r.Next), "tile", "tiles"))
	case len(r.Next) > 0:
		return fmt.Sprintf("%s to fire next", english.Count(len(r.Next), "tile", "tiles"))
	case r.Open == 0:
		return "no pair is left to fire: " + r.Why
	}
	return r.Why
}

func foreseenNext(r run.Foreseen, f foreseeFlags) string {
	switch {
	case r.Planned != nil && len(r.Planned.Added) > 0:
		return "twodip print --new"
	case r.Planned != nil:
		return "twodip print"
	case len(r.Next) > 0:
		return "the same with --plan, which gives them numbers and loads"
	case r.Open > 0 && f.wish.Next == 0 && f.wish.Toward == "":
		return "twodip foresee --next 12"
	}
	return ""
}
