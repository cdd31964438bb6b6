package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"time"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/trace"
)

// printJob reads the wall and what every sheet needs of it.
func (a *app) printJob(ask printing, sheets []sheet.Sheet, named bool) (sheet.Job, error) {
	r, err := a.printRecords(sheets, named)
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

// printRecords reads the wall, and its records where a sheet shows them. A
// record that cannot be read stops only what was asked for by name; without
// names the rest is printed, and what is wrong is said.
func (a *app) printRecords(sheets []sheet.Sheet, named bool) (records, error) {
	wall, err := a.load()
	if err != nil || !slices.ContainsFunc(sheets, showsRecords) {
		return records{wall: wall}, err
	}
	r, err := a.loadRecords()
	if err != nil && !named {
		a.complain(err)
		a.hint("printed without the faults, the buckets and the pieces of the log")
		return records{wall: wall}, nil
	}
	return r, err
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
	report := trace.Faults(r.log.Each(), r.studio())
	job.Trace = &report
	ruled, _ := verdicts(r.wall)
	job.Pieces, job.Held = logbook.Waiting(r.wall, r.log.Each(), ruled)
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
		if a.folder().Has(name) {
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
	ttf, err := a.folder().Read(name, mostFont)
	var ps tiles.Problems
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, bad("it cannot be opened", "check the path, which begins at the wall's folder")
	case errors.As(err, &ps):
		return nil, bad("it "+ps[0].What, "give another font")
	case err != nil:
		return nil, err
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
		a.complain(a.unprintable(job.List, l))
	}
	return err
}

// checkPaper looks at what print would trip over: the label sheet, the font,
// and letters that cannot be printed, which it returns as notes.
func (a *app) checkPaper(ps *problems, w tiles.Wall) []string {
	_, err := sheet.FindLabelSheet(w.Settings)
	ps.add(err)
	font, err := a.labelFont(w.Labels.Font)
	ps.add(err)
	if err != nil {
		return nil
	}
	lacks, err := sheet.Lacks(w.Glazes, font)
	ps.add(err)
	var notes []string
	for _, l := range lacks {
		notes = append(notes, a.unprintable(a.glazeList(), l).Error())
	}
	return notes
}

// unprintable says which letters of a glaze's name will be a box on paper.
func (a *app) unprintable(list string, l sheet.Lack) tiles.Problem {
	return tiles.Problem{File: list, Line: l.Glaze.Line, What: l.String() + ", so a box is printed", Do: l.Mend()}
}
