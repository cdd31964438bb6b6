package produce

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// PrintWish is what a person asks print for.
type PrintWish struct {
	Sheets []string // by name, as sheet.Sheets has them; none = all that apply but those printed only when asked for
	Date   string   // at the foot of every sheet, 2026-03-14
	Start  int      // first free label on a used sheet; 0 = as wall.yaml says
	New    bool     // only the tiles that the latest round of plan added
	Tell   run.Tell
}

// Printed is what print made.
type Printed struct {
	Made     []Made         // in order
	Empty    []string       // sheets that have nothing to show yet
	Left     []string       // sheets not made before it was stopped
	Hints    []string       // worth knowing; they stop nothing
	Warnings tiles.Problems // of the wall; they stop nothing
	Problems tiles.Problems // what kept a sheet from being made
	Unplan   bool           // the wall has no tile yet
}

// Made is one PDF.
type Made struct {
	Sheet  string   `json:"sheet"`
	File   string   `json:"file"`
	Pages  int      `json:"pages"`
	Beside []string `json:"-"` // what who holds the sheet must know beside it
}

// Print makes the PDFs in build/print, each whole or not at all. One that has
// nothing to show is left out, unless it was asked for by name; one that cannot
// be made is said, and the others are made all the same. When ctx is done it
// stops before the next page, and Left says what is left.
func Print(ctx context.Context, dir folder.Folder, wish PrintWish) (Printed, error) {
	sheets, err := chooseSheets(wish.Sheets)
	if err != nil {
		return Printed{}, err
	}
	release, err := run.Hold(dir)
	if err != nil {
		return Printed{}, err
	}
	defer release()
	p := &press{dir: dir, wish: wish, sheets: sheets}
	if err := p.prepare(ctx); err != nil {
		return p.did, err
	}
	if err := p.all(ctx); err != nil {
		return p.did, err
	}
	if len(p.did.Empty) > 0 && len(p.did.Problems)+len(p.did.Left) == 0 && (p.named() || len(p.did.Made) == 0) {
		return p.did, nothingOn(p.did.Empty, p.job)
	}
	p.did.Unplan = len(p.job.Wall.Tiles) == 0
	return p.did, nil
}

// press makes sheets.
type press struct {
	dir    folder.Folder
	wish   PrintWish
	sheets []sheet.Sheet
	job    sheet.Job
	did    Printed
}

// named says that the sheets were asked for by name.
func (p *press) named() bool { return len(p.wish.Sheets) > 0 }

// chooseSheets finds the sheets by name; no name is all of them.
func chooseSheets(names []string) ([]sheet.Sheet, error) {
	all := sheet.Sheets()
	if len(names) == 0 {
		return slices.DeleteFunc(all, func(s sheet.Sheet) bool { return s.Asked }), nil
	}
	var chosen []sheet.Sheet
	for _, name := range names {
		i := slices.IndexFunc(all, func(s sheet.Sheet) bool {
			asked := strings.ToLower(name)
			return asked != "" && (s.Name == asked || s.Also == asked)
		})
		if i < 0 {
			if near, ok := logbook.Nearest(name, SheetNames()); ok {
				return nil, run.ErrNotAsked(fmt.Sprintf("no sheet is called %q; did you mean %s?", name, near))
			}
			return nil, run.ErrNotAsked(fmt.Sprintf("no sheet is called %q; there are %s", name, strings.Join(SheetNames(), ", ")))
		}
		chosen = append(chosen, all[i])
	}
	return chosen, nil
}

// SheetNames lists the sheets that there are.
func SheetNames() []string {
	var names []string
	for _, s := range sheet.Sheets() {
		names = append(names, s.Name)
	}
	return names
}

// all makes sheet after sheet. A wall too large for a sheet is no mistake where
// that sheet was not asked for by name.
func (p *press) all(ctx context.Context) error {
	step := p.wish.Tell.Steps("printing", len(p.sheets))
	for _, s := range p.sheets {
		if ctx.Err() != nil {
			p.did.Left = append(p.did.Left, s.Name)
			continue
		}
		if !s.Form || p.job.New == nil || p.named() {
			if err := p.one(s); err != nil {
				return err
			}
		}
		step()
	}
	return nil
}

// one makes one sheet, or notes why it is not made. Its error is one that would
// stop any other sheet.
func (p *press) one(s sheet.Sheet) error {
	made, err := p.draw(s)
	var ps run.Problems
	if err == nil && s.Name == "labels" && p.job.Wall.Address == "" {
		p.did.Hints = append(p.did.Hints, "the codes on the labels say only TILE and the number, and no phone opens a page from that: write the site's address as address: in wall.yaml before you print them for good")
	}
	switch {
	case errors.Is(err, context.Canceled):
		p.did.Left = append(p.did.Left, s.Name)
	case folder.StopsAll(err):
		return err
	case errors.Is(err, sheet.ErrNothing):
		p.did.Empty = append(p.did.Empty, s.Name)
	case !p.named() && errors.As(err, new(sheet.TooLarge)):
		p.did.Hints = append(p.did.Hints, fmt.Sprintf("%s is left out: %v", s.Name, err))
	case err != nil:
		ps.Add(err)
		for _, one := range ps.Found { // one mistake may keep several sheets from being made
			if !slices.Contains(p.did.Problems, one) {
				p.did.Problems = append(p.did.Problems, one)
			}
		}
	default:
		made.Beside = p.beside(s)
		p.did.Made = append(p.did.Made, made)
	}
	return nil
}

// draw writes one PDF, whole or not at all.
func (p *press) draw(s sheet.Sheet) (Made, error) {
	made := Made{Sheet: s.Name, File: "build/print/" + s.Name + ".pdf"}
	var pdf bytes.Buffer
	var err error
	if made.Pages, err = s.Draw(&pdf, p.job); err != nil {
		return made, err
	}
	return made, p.dir.WriteBytes(made.File, pdf.Bytes())
}

// nothingOn says why sheets have nothing to show.
func nothingOn(names []string, job sheet.Job) error {
	p := tiles.Problem{File: record.PlanFile, What: "nothing to print on " + strings.Join(names, ", "), Do: "run twodip plan first", Page: "write the plan first, on the page Plan"}
	switch {
	case job.New != nil:
		p.Do, p.Page = "no planned tile is new; print without --new, or run twodip plan first", "no planned tile is new"
	case slices.Contains(names, "door"):
		return noDoor()
	case slices.Contains(names, "trace"):
		return run.NoPiece()
	case slices.Contains(names, "drift"):
		p.Do, p.Page = "it needs a re-test, a control or a new batch: see twodip drift", "it needs a re-test, a control or a new batch: see the page Drift"
	case len(job.Wall.Tiles) > 0:
		p.What += ": every tile of the plan is fired"
		p.Do, p.Page = "run twodip plan when a glaze or a batch is new", "make the next plan when a glaze or a batch is new"
	}
	return p
}
