package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles/english"
)

func printCommand(a *app) *cobra.Command {
	var wish produce.PrintWish
	var pair bool
	c := &cobra.Command{
		Use:   "print [SHEET…]",
		Short: "Make the PDFs: labels, the wall grid, and the sheets to pin up",
		Long:  "Make the PDFs in build/print. Without names, all that apply.\n\n" + sheetList(),
		RunE: func(_ *cobra.Command, names []string) error {
			if wish.Date == "" { // no default of the flag: the manual would change with the day
				wish.Date = time.Now().Format(time.DateOnly)
			}
			if _, err := time.Parse(time.DateOnly, wish.Date); err != nil {
				return usageError{fmt.Errorf("--date %q is not a date; write it like 2026-03-14", wish.Date)}
			}
			if wish.Sheets = names; pair {
				at := slices.IndexFunc(names, func(n string) bool { return strings.EqualFold(n, "mat") })
				if at < 0 {
					return usageError{errors.New("--pair is for the mat: twodip print mat --pair")}
				}
				wish.Sheets[at] = "mat-pair"
			}
			wish.Tell = a.bars()
			return a.print(wish)
		},
		ValidArgs: produce.SheetNames(),
	}
	c.Flags().StringVar(&wish.Date, "date", "", "date at the foot of every sheet (default today)")
	c.Flags().IntVar(&wish.Start, "start", 0, "first free label on a used sheet (as labels: start in wall.yaml)")
	c.Flags().BoolVar(&wish.New, "new", false, "only tiles added by the last run of plan that added any")
	c.Flags().BoolVar(&pair, "pair", false, "the mat for two tiles side by side, for a re-test and the wall's own")
	return c
}

func sheetList() string {
	var b strings.Builder
	for _, s := range sheet.Sheets() {
		also := ""
		if s.Also != "" {
			also = " (also: " + s.Also + ")"
		}
		if s.Asked {
			also += " (only when asked for by name)"
		}
		fmt.Fprintf(&b, "  %-10s %s%s\n", s.Name, s.Title, also)
	}
	return strings.TrimRight(b.String(), "\n")
}

// print makes the sheets and says each, and what keeps one from being made.
func (a *app) print(wish produce.PrintWish) error {
	ctx, stop := a.interruptible()
	defer stop()
	did, err := produce.Print(ctx, a.folder(), wish)
	a.complainAll(did.Warnings)
	for _, hint := range did.Hints {
		a.hint("%s", hint)
	}
	pages := 0
	for _, m := range did.Made {
		a.step("%s in %s", english.Count(m.Pages, "page", "pages"), m.File)
		for _, beside := range m.Beside {
			a.step("%s", beside)
		}
		pages += m.Pages
	}
	a.complainAll(did.Problems)
	switch {
	case err != nil:
		return err
	case len(did.Problems) > 0 && len(did.Left) == 0:
		return errSaid
	case len(did.Empty) > 0:
		a.step("nothing to show yet on %s", strings.Join(did.Empty, ", "))
	}
	next := "glaze and fire, photograph every tile, then twodip measure"
	if did.Unplan {
		next = "twodip plan, then print again"
	}
	summary := fmt.Sprintf("%s, %s in build/print: print them at 100 %%", english.Count(len(did.Made), "sheet", "sheets"), english.Count(pages, "page", "pages"))
	if n := len(did.Left); n > 0 {
		summary += fmt.Sprintf("; stopped with %s left: %s", english.Count(n, "sheet", "sheets"), strings.Join(did.Left, ", "))
		next = "the same twodip print once more"
	}
	if err := a.done(did.Made, summary, next); err != nil || len(did.Left) == 0 {
		return err
	}
	return errSaid
}
