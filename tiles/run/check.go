package run

import (
	"fmt"
	"slices"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/record"
)

// Checked is what check found.
type Checked struct {
	Glazes   int            `json:"glazes"`
	Tiles    int            `json:"tiles"`
	Photos   int            `json:"photos"`
	Readings int            `json:"readings"`
	Pages    int            `json:"pages"`
	Pieces   int            `json:"pieces"` // in the log
	Problems tiles.Problems `json:"problems"`
	Notes    []string       `json:"notes"` // things to know that stop nothing
}

// Check reads everything, says what is wrong, and writes nothing. What is right
// so far is looked at by made, for what making it into paper and a site would
// trip over, and for notes. The error is of a folder that is no wall.
func Check(dir folder.Folder, made func(Records) (notes []string, ps tiles.Problems)) (Checked, error) {
	var ps Problems
	r, err := LoadRecords(dir)
	if IsNoWall(err) {
		return Checked{}, err
	}
	ps.Add(err)
	pages := gather(&ps, dir, content.ReadPages)
	photos, photosErr := dir.ListPhotos()
	ps.Add(photosErr)
	ps.Add(farRows(dir, r.Wall.Hand).OrNil())
	gone := missingFiles(dir, r.Wall.Settings)
	ps.Add(gone.OrNil())
	notes := slices.Concat(notesOn(r.Wall, photos), samePhotos(dir, photos), slips(r, listFile(dir)), waitingRows(dir), fullDisk(dir), undated(r), laterBooks(dir), doubled(r), missingPhotos(dir, r.Wall.Readings, photos), strayRows(r.Wall.Hand, photos))
	if err == nil && len(gone) == 0 {
		more, wrong := made(r)
		notes = append(notes, more...)
		ps.Add(wrong.OrNil())
	}
	if err == nil {
		notes = append(notes, content.Unwise(r.Wall.Settings)...)
		notes = append(notes, sayMistaken(r.Wall, func(string) bool { return true })...)
		if p, err := LookAtPlan(dir, PlanWish{}); err == nil && len(r.Wall.Tiles) > 0 {
			ps.Add(p.Asks(dir).OrNil())
		}
	}
	ps.addNew(Copies(dir))
	c := Checked{Glazes: len(r.Wall.Glazes), Tiles: len(r.Wall.Tiles), Photos: len(photos), Readings: len(r.Wall.Readings), Pages: len(pages),
		Problems: ps.Found, Notes: notes}
	if r.Log != nil {
		c.Pieces = r.Log.Len()
	}
	return c, nil
}

// waitingRows says that phones sent something while a command had the wall.
func waitingRows(dir folder.Folder) []string {
	n, err := record.CountWaiting(dir)
	if n == 0 || err != nil { // what is wrong with them is said where the log is read
		return nil
	}
	return []string{fmt.Sprintf("%s: %s from phones %s there for a command to end; the next one that changes the wall takes %s up into %s",
		record.WaitingFile, english.Count(n, "entry", "entries"), english.Number(n, "waits", "wait"), english.Number(n, "it", "them"), record.LogFile)}
}

// missingFiles looks for the files that wall.yaml names.
func missingFiles(dir folder.Folder, s tiles.Settings) tiles.Problems {
	var ps tiles.Problems
	for _, named := range []struct{ setting, file string }{{"labels: font", s.Labels.Font}, {"photo: chart", s.Photo.Chart}} {
		if named.file != "" && !dir.Has(named.file) {
			ps = append(ps, tiles.Problem{File: content.SettingsFile, What: named.setting + " names " + named.file + ", which is not there",
				Do: "put the file there, or take the line out"})
		}
	}
	return ps
}

// undated says which loads of the plan were fired without a row in the record
// of firings that names them, where a studio keeps one: their tiles have no day,
// so nobody can tell which batch they were made from.
func undated(r Records) []string {
	if len(r.Loads) == 0 {
		return nil
	}
	dated := map[int]bool{}
	for _, l := range r.Loads {
		dated[l.PlanLoad()] = true
	}
	var out []string
	for _, t := range r.Wall.Tiles {
		if t.Status == tiles.Fired && t.Load > 0 && !dated[t.Load] {
			dated[t.Load] = true
			out = append(out, fmt.Sprintf("load %d of the plan was fired, but no row of %s says in which firing: in the row of that firing, write %d in the column tiles", t.Load, record.LoadsFile, t.Load))
		}
	}
	return out
}

// doubled says which rows of the log say again what others say, or say
// otherwise.
func doubled(r Records) []string {
	if r.Log == nil {
		return nil
	}
	_, d := logbook.Once(r.Log.Each(), r.Wall.Glazes)
	var out []string
	for _, says := range d.Say() {
		out = append(out, record.LogFile+": "+says)
	}
	return out
}

// notesOn are things to know about photos and glazes.
func notesOn(w tiles.Wall, photos []string) []string {
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
		out = append(out, english.Count(strangers, "photo has", "photos have")+" no tile number in the name: measure looks for the label in the picture")
	}
	return out
}

// unlisted says which glazes of the plan have left the glaze list.
func unlisted(w tiles.Wall) []string {
	var out []string
	said := map[string]bool{"": true}
	for _, t := range w.Tiles {
		for _, code := range []string{t.First, t.Second} {
			if _, ok := tiles.FindGlaze(w.Glazes, code); !ok && !said[code] {
				said[code] = true
				out = append(out, "glaze "+code+" is in the plan and no longer in the glaze list: its tiles keep their numbers")
			}
		}
	}
	return out
}
