package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// printing is what a person asks print for.
type printing struct {
	date  string
	start int
	fresh bool
}

func printCommand(a *app) *cobra.Command {
	var ask printing
	c := &cobra.Command{
		Use:   "print [SHEET…]",
		Short: "Make the PDFs: labels, the wall grid, and the sheets to pin up",
		Long:  "Make the PDFs in build/print. Without names, all that apply.\n\n" + sheetList(),
		RunE: func(_ *cobra.Command, names []string) error {
			sheets, err := chooseSheets(names)
			if err != nil {
				return usageError{err}
			}
			return a.print(sheets, len(names) > 0, ask)
		},
		ValidArgs: sheetNames(),
	}
	c.Flags().StringVar(&ask.date, "date", time.Now().Format(time.DateOnly), "the date at the foot of every sheet")
	c.Flags().IntVar(&ask.start, "start", 0, "first free label on a used sheet (as labels: start in wall.yaml)")
	c.Flags().BoolVar(&ask.fresh, "new", false, "only the tiles that the last run of plan with anything new added")
	return c
}

func sheetNames() []string {
	var names []string
	for _, s := range sheet.Sheets() {
		names = append(names, s.Name)
	}
	return names
}

func sheetList() string {
	var b strings.Builder
	for _, s := range sheet.Sheets() {
		also := ""
		if s.Also != "" {
			also = " (also: " + s.Also + ")"
		}
		fmt.Fprintf(&b, "  %-10s %s%s\n", s.Name, s.Title, also)
	}
	return strings.TrimRight(b.String(), "\n")
}

// chooseSheets finds the sheets by name; no name is all of them.
func chooseSheets(names []string) ([]sheet.Sheet, error) {
	all := sheet.Sheets()
	if len(names) == 0 {
		return all, nil
	}
	var chosen []sheet.Sheet
	for _, name := range names {
		i := slices.IndexFunc(all, func(s sheet.Sheet) bool {
			asked := strings.ToLower(name)
			return asked != "" && (s.Name == asked || s.Also == asked)
		})
		if i < 0 {
			return nil, fmt.Errorf("no sheet is called %q; there are %s", name, strings.Join(sheetNames(), ", "))
		}
		chosen = append(chosen, all[i])
	}
	return chosen, nil
}

// printed is one sheet made, as --json says it.
type printed struct {
	Sheet string `json:"sheet"`
	File  string `json:"file"`
	Pages int    `json:"pages"`
}

// print makes the sheets. One that has nothing to show is left out, unless it
// was asked for by name; one that cannot be printed is said, and the others
// are made all the same.
func (a *app) print(sheets []sheet.Sheet, named bool, ask printing) error {
	release, err := a.folder().Lock()
	if err != nil {
		return err
	}
	defer release()
	job, err := a.printJob(ask, sheets, named)
	if err != nil {
		return err
	}
	if err := a.sayLacks(job); err != nil {
		return err
	}
	made, empty, err := a.printAll(sheets, job, named)
	switch {
	case err != nil:
		return err
	case len(empty) > 0 && (named || len(made) == 0):
		return nothingOn(empty, job)
	case len(empty) > 0:
		a.step("nothing to show yet on %s", strings.Join(empty, ", "))
	}
	next := "glaze and fire, photograph every tile, then twodip measure"
	if len(job.Wall.Tiles) == 0 {
		next = "twodip plan, then print again"
	}
	return a.sayPrinted(made, next)
}

// printAll prints sheet after sheet, and says each as it is made and what
// keeps one from being made. A wall too large for a sheet is no mistake where
// that sheet was not asked for by name.
func (a *app) printAll(sheets []sheet.Sheet, job sheet.Job, named bool) (made []printed, empty []string, err error) {
	bar := a.progress(len(sheets), "printing")
	said := map[string]bool{} // one mistake may keep several sheets from being made
	for _, s := range sheets {
		_ = bar.Add(1)
		if s.Form && job.New != nil && !named {
			continue
		}
		one, failed := a.printSheet(s, job)
		switch {
		case folder.StopsAll(failed):
			return made, empty, failed
		case errors.Is(failed, sheet.ErrNothing):
			empty = append(empty, s.Name)
			continue
		case !named && errors.As(failed, new(sheet.TooLarge)):
			a.hint("%s is left out: %v", s.Name, failed)
			continue
		case failed != nil:
			if !said[failed.Error()] {
				a.complain(failed)
			}
			said[failed.Error()], err = true, errSaid
			continue
		}
		made = append(made, one)
		a.step("%s in %s", many(one.Pages, "page", "pages"), one.File)
		a.sayBeside(s, job)
	}
	return made, empty, err
}

// nothingOn says why sheets have nothing to show.
func nothingOn(names []string, job sheet.Job) error {
	p := tiles.Problem{File: "tiles/plan.csv", What: "nothing to print on " + strings.Join(names, ", "), Do: "run twodip plan first"}
	switch {
	case job.New != nil:
		p.Do = "no planned tile is new; print without --new, or run twodip plan first"
	case slices.Contains(names, "trace"):
		return tiles.Problem{File: record.LogFile, What: "there is no piece in the log", Do: "take rows in with: twodip log FILE"}
	case slices.Contains(names, "drift"):
		p.Do = "it needs a re-test, a control or a new batch: see twodip drift"
	case len(job.Wall.Tiles) > 0:
		p.What += ": every tile of the plan is fired"
		p.Do = "run twodip plan when a glaze or a batch is new"
	}
	return p
}

func (a *app) sayPrinted(made []printed, next string) error {
	pages := 0
	for _, m := range made {
		pages += m.Pages
	}
	summary := fmt.Sprintf("%s, %s in build/print: print them at 100 %%", many(len(made), "sheet", "sheets"), many(pages, "page", "pages"))
	return a.done(made, summary, next)
}

// printSheet writes one PDF, whole or not at all.
func (a *app) printSheet(s sheet.Sheet, job sheet.Job) (printed, error) {
	one := printed{Sheet: s.Name, File: "build/print/" + s.Name + ".pdf"}
	var pdf bytes.Buffer
	var err error
	if one.Pages, err = s.Draw(&pdf, job); err != nil {
		return one, err
	}
	return one, a.folder().Write(one.File, func(w io.Writer) error {
		_, err := pdf.WriteTo(w)
		return err
	})
}
