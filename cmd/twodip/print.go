package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/fault"
	"github.com/twodip/twodip/tiles/plan"
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
		fmt.Fprintf(&b, "  %-10s %s\n", s.Name, s.Title)
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
		i := slices.IndexFunc(all, func(s sheet.Sheet) bool { return s.Name == strings.ToLower(name) })
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
// was asked for by name.
func (a *app) print(sheets []sheet.Sheet, named bool, ask printing) error {
	job, err := a.printJob(ask, sheets)
	if err != nil {
		return err
	}
	if err := a.sayLacks(job); err != nil {
		return err
	}
	var made []printed
	var empty []string
	bar := a.progress(len(sheets), "printing")
	for _, s := range sheets {
		one, err := a.printSheet(s, job)
		_ = bar.Add(1)
		switch {
		case errors.Is(err, sheet.ErrNothing) && !named:
			empty = append(empty, s.Name)
			continue
		case errors.Is(err, sheet.ErrNothing):
			return nothingFor(s, ask)
		case err != nil:
			return err
		}
		made = append(made, one)
		a.step("%s in %s", many(one.Pages, "page", "pages"), one.File)
		if s.Name == "shelves" && len(job.Held) > 0 {
			a.step("%s left off the shelves; the sheet says why", many(len(job.Held), "piece is", "pieces are"))
		}
	}
	if len(made) == 0 {
		return nothingFor(sheets[0], ask)
	}
	next := "glaze and fire, photograph every tile, then twodip measure"
	if len(empty) > 0 {
		a.step("nothing to show yet on %s", strings.Join(empty, ", "))
	}
	if len(job.Wall.Tiles) == 0 {
		next = "twodip plan, then print again"
	}
	return a.sayPrinted(made, next)
}

func nothingFor(s sheet.Sheet, ask printing) error {
	p := tiles.Problem{File: "tiles/plan.csv", What: "nothing to print on " + s.Name, Do: "run twodip plan first"}
	switch s.Name {
	case "trace":
		return tiles.Problem{File: record.LogFile, What: "there is no piece in the log", Do: "take rows in with: twodip log FILE"}
	case "drift":
		p.Do = "it needs a re-test, a control or a new batch: see twodip drift"
	}
	if ask.fresh {
		p.Do = "no planned tile is new; print without --new, or run twodip plan first"
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
	return one, record.WriteFile(filepath.Join(a.wall, filepath.FromSlash(one.File)), func(w io.Writer) error {
		_, err := pdf.WriteTo(w)
		return err
	})
}

// printJob reads the wall and what every sheet needs of it.
func (a *app) printJob(ask printing, sheets []sheet.Sheet) (sheet.Job, error) {
	var r records
	var err error
	if slices.ContainsFunc(sheets, showsRecords) {
		r, err = a.loadRecords()
	} else {
		r.wall, err = a.load()
	}
	if err != nil {
		return sheet.Job{}, err
	}
	wall := r.wall
	if ask.start > 0 {
		wall.Labels.Start = ask.start
	}
	if _, err := time.Parse(time.DateOnly, ask.date); err != nil {
		return sheet.Job{}, usageError{fmt.Errorf("--date %q is not a date; write it like 2026-03-14", ask.date)}
	}
	job := sheet.Job{Wall: wall, Date: ask.date, List: a.glazeList(), Say: func(s string) { a.hint("%s", s) }}
	if ask.fresh {
		job.New = newest(wall.Tiles)
	}
	if r.log != nil {
		a.addRecords(&job, r)
	}
	job.Font, err = a.labelFont(wall.Labels.Font)
	return job, err
}

// showsRecords says that a sheet needs the log, the buckets and the firings.
// The others are printed even where those cannot be read.
func showsRecords(s sheet.Sheet) bool {
	return s.Name == "trace" || s.Name == "drift" || s.Name == "shelves"
}

// addRecords gives the sheets what the records say: faults, buckets, and the
// pieces that wait for the kiln, without those that must not go in.
func (a *app) addRecords(job *sheet.Job, r records) {
	d := r.drift()
	job.Drift = &d
	if r.log.Len() == 0 {
		return
	}
	report := fault.Trace(r.log.Each(), r.studio())
	job.Trace = &report
	job.Pieces, job.Held = fault.AtDoor(r.wall, r.log.Each())
}

// newest is the tiles still to be made that the latest round of plan added.
func newest(ts []tiles.Tile) sheet.Numbers {
	fresh := sheet.Numbers{}
	for _, t := range plan.New(ts) {
		fresh[t.Number] = true
	}
	return fresh
}

// glazeList is the path of the wall's glaze list, for what is said about names.
func (a *app) glazeList() string {
	for _, name := range []string{"content/glazes.csv", "content/glazes.yaml"} {
		if _, err := os.Stat(filepath.Join(a.wall, filepath.FromSlash(name))); err == nil {
			return name
		}
	}
	return "content/glazes.csv"
}

// mostFont bounds a font file: the largest CJK fonts are about 30 MB.
const mostFont = 64 << 20

// labelFont reads the wall's own font, if it names one.
func (a *app) labelFont(name string) ([]byte, error) {
	if name == "" {
		return nil, nil
	}
	bad := func(what, do string) error {
		return tiles.Problem{File: "wall.yaml", What: fmt.Sprintf("labels: font: %s: %s", name, what), Do: do}
	}
	if !filepath.IsLocal(filepath.FromSlash(name)) {
		return nil, bad("it lies outside the wall's folder", "put the font into it")
	}
	f, err := os.Open(filepath.Join(a.wall, filepath.FromSlash(name)))
	if err != nil {
		return nil, bad("it cannot be opened", "check the path, which begins at the wall's folder")
	}
	defer f.Close()
	ttf, err := io.ReadAll(io.LimitReader(f, mostFont+1))
	if err != nil || len(ttf) > mostFont {
		return nil, bad("it cannot be read, or is larger than 64 MB", "give another font")
	}
	if err := sheet.CheckFont(ttf); err != nil {
		return nil, bad(err.Error(), "")
	}
	return ttf, nil
}

// sayLacks names every glaze whose name holds a letter that cannot be printed,
// before anything is.
func (a *app) sayLacks(job sheet.Job) error {
	lacks, err := sheet.Lacks(job.Wall.Glazes, job.Font)
	for _, l := range lacks {
		a.complain(tiles.Problem{File: job.List, Line: l.Glaze.Line, What: l.String() + ", so a box is printed", Do: l.Mend()})
	}
	return err
}
