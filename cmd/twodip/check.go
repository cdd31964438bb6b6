package main

import (
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/build/site"
	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

func checkCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "check",
		Short: "Read everything, say what is wrong, write nothing",
		Args:  usageArgs(cobra.NoArgs),
		RunE:  func(*cobra.Command, []string) error { return a.check() },
	}
}

// checked is what check says to programs.
type checked struct {
	Glazes   int             `json:"glazes"`
	Tiles    int             `json:"tiles"`
	Photos   int             `json:"photos"`
	Readings int             `json:"readings"`
	Pages    int             `json:"pages"`
	Pieces   int             `json:"pieces"`
	Problems []tiles.Problem `json:"problems"`
	Notes    []string        `json:"notes"`
}

func (a *app) check() error {
	var ps problems
	r, err := a.readRecords()
	ps.add(err)
	if isNoWall(err) {
		return err
	}
	wall := r.wall
	pages := gather(&ps, a.folder(), content.ReadPages)
	photos, photosErr := a.folder().ListPhotos()
	ps.add(photosErr)
	gone := missingFiles(a.folder(), wall.Settings)
	ps.add(gone.OrNil())
	var unprintable []string
	if err == nil && len(gone) == 0 {
		unprintable = a.checkPaper(&ps, wall)
	}
	ps.addNew(copies(a.folder()))
	result := checked{Glazes: len(wall.Glazes), Tiles: len(wall.Tiles), Photos: len(photos), Readings: len(wall.Readings), Pages: len(pages), Pieces: pieces(r),
		Problems: ps.found, Notes: slices.Concat(notes(wall, photos), undated(r), unprintable, unwise(wall, err), site.Shown(wall, r.loads))}
	return a.sayChecked(result)
}

func (a *app) sayChecked(r checked) error {
	for _, n := range r.Notes {
		a.step("note: %s", n)
	}
	if len(r.Problems) > 0 && !a.json {
		a.complain(tiles.Problems(r.Problems))
	}
	summary := fmt.Sprintf("%s, %s, %s, %s, %s, %s in the log: ", many(r.Glazes, "glaze", "glazes"), many(r.Tiles, "tile", "tiles"),
		many(r.Photos, "photo", "photos"), many(r.Readings, "reading", "readings"), many(r.Pages, "page", "pages"),
		many(r.Pieces, "piece", "pieces"))
	if len(r.Problems) == 0 {
		return a.done(r, summary+"nothing wrong", nextStep(r))
	}
	if err := a.done(r, summary+many(len(r.Problems), "problem", "problems"), "mend them, then: twodip check"); err != nil {
		return err
	}
	return errSaid
}

// pieces counts the log, where it can be read.
func pieces(r records) int {
	if r.log == nil {
		return 0
	}
	return r.log.Len()
}

// nextStep is the first step of the main job that is still to do.
func nextStep(r checked) string {
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

// missingFiles looks for the files that wall.yaml names.
func missingFiles(dir folder.Folder, s tiles.Settings) tiles.Problems {
	var ps tiles.Problems
	for _, named := range []struct{ setting, file string }{{"labels: font", s.Labels.Font}, {"photo: chart", s.Photo.Chart}} {
		if named.file == "" {
			continue
		}
		if !dir.Has(named.file) {
			ps = append(ps, tiles.Problem{File: content.SettingsFile, What: named.setting + " names " + named.file + ", which is not there",
				Do: "put the file there, or take the line out"})
		}
	}
	return ps
}

// undated says which loads of the plan were fired without a row in the record
// of firings that names them, where a studio keeps one: their tiles have no day,
// so nobody can tell which batch they were made from.
func undated(r records) []string {
	if len(r.loads) == 0 {
		return nil
	}
	dated := map[int]bool{}
	for _, l := range r.loads {
		dated[l.PlanLoad()] = true
	}
	var out []string
	for _, t := range r.wall.Tiles {
		if t.Status == tiles.Fired && t.Load > 0 && !dated[t.Load] {
			dated[t.Load] = true
			out = append(out, fmt.Sprintf("load %d of the plan was fired and no firing in %s holds it: write %d below tiles in the row of its firing", t.Load, record.LoadsFile, t.Load))
		}
	}
	return out
}

// unwise says what the settings ask for against common practice, where they
// could be read.
func unwise(w tiles.Wall, err error) []string {
	if err != nil {
		return nil
	}
	return content.Unwise(w.Settings)
}

// notes are things to know that stop nothing.
func notes(w tiles.Wall, photos []string) []string {
	var out []string
	strangers := 0
	for _, name := range photos {
		n, ok := tiles.NumberFromPhoto(name)
		if !ok {
			strangers++
			continue
		}
		if _, known := w.Tile(n); !known && len(w.Tiles) > 0 {
			out = append(out, fmt.Sprintf("tiles/photos/%s: the plan has no tile %d", name, n))
		}
	}
	if strangers > 0 {
		out = append(out, many(strangers, "photo has", "photos have")+" no tile number in the name: measure looks for the label in the picture")
	}
	gone := map[string]bool{}
	for _, t := range w.Tiles {
		for _, code := range []string{t.First, t.Second} {
			if _, ok := tiles.FindGlaze(w.Glazes, code); code != "" && !ok && !gone[code] {
				gone[code] = true
				out = append(out, "glaze "+code+" is in the plan and no longer in the glaze list: its tiles keep their numbers")
			}
		}
	}
	return out
}
