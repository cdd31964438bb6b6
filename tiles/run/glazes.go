package run

import (
	"bytes"
	"fmt"
	"slices"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/table"
	"github.com/twodip/twodip/tiles/table/book"
)

// GlazesEdit is a glaze list as a person wants it, made of the version they saw.
type GlazesEdit struct {
	File string // the list's file
	Seen string // its Sum
	Rows []content.ListRow
	// Renamed are the codes, as the file has them, of the rows whose new code is
	// the same glaze's: its numbers, photos and records go with it.
	Renamed []string
}

// EditGlazes writes a glaze list: only the rows that were touched, and before
// them the new codes of glazes that are renamed, wherever the old ones stand. A
// list that could not be used is refused as a whole; so is one that was changed
// elsewhere (ErrStale).
func EditGlazes(dir folder.Folder, e GlazesEdit) error {
	c, err := take(dir)
	if err != nil {
		return err
	}
	defer c.end()
	was, sum, err := Look(dir, e.File)
	if err != nil {
		return err
	}
	if sum != e.Seen {
		return ErrStale{File: e.File, Now: was}
	}
	after, err := content.EditedList(e.File, was, e.Rows)
	if err != nil {
		return err
	}
	if err := usable(e.File, e.Rows); err != nil {
		return err
	}
	renames, err := e.renames(was)
	if err != nil {
		return err
	}
	for _, did := range renames {
		if err := did.fit(dir); err != nil {
			return err
		}
	}
	if err := c.begin(); err != nil {
		return err
	}
	for _, did := range renames {
		if err := did.write(dir); err != nil {
			return err
		}
	}
	return dir.WriteBytes(e.File, after)
}

// usable refuses a list with anything wrong in it.
func usable(file string, rows []content.ListRow) error {
	var ps tiles.Problems
	for _, b := range content.CheckList(file, rows) {
		ps = append(ps, b.Problem)
	}
	return ps.OrNil()
}

// renames are the old and new codes of the rows that are renamed.
func (e GlazesEdit) renames(was []byte) ([]Renamed, error) {
	l, err := content.ParseList(e.File, was)
	if err != nil {
		return nil, err
	}
	var out []Renamed
	for _, r := range e.Rows {
		if r.Of < 0 {
			continue
		}
		old, now := l.Rows[r.Of].Cell("code"), r.Cell("code")
		if slices.Contains(e.Renamed, old) && !tiles.SameCode(old, now) {
			out = append(out, Renamed{Old: old, New: now})
		}
	}
	return out, nil
}

// Leaving is a glaze that an edit would take out of the list, by its row or by
// its code, while tiles have it.
type Leaving struct {
	Code, Name string
	Now        string // the code that its row has now; "" = the row is gone
	Tiles      int    // planned and fired that have it
	Fired      int
}

// Leaves says which glazes an edit would take out of the list while tiles have
// them: a code that is another may be the same glaze's or another glaze.
func Leaves(dir folder.Folder, e GlazesEdit) ([]Leaving, error) {
	was, _, err := Look(dir, e.File)
	if err != nil || was == nil {
		return nil, err
	}
	l, err := content.ParseList(e.File, was)
	if err != nil {
		return nil, err
	}
	ts, err := record.ReadTiles(dir)
	if err != nil {
		return nil, err
	}
	var out []Leaving
	for i, r := range l.Rows {
		code := r.Cell("code")
		if code == "" || slices.ContainsFunc(e.Rows, func(r content.ListRow) bool { return tiles.SameCode(r.Cell("code"), code) }) {
			continue
		}
		leaving := Leaving{Code: code, Name: r.Cell("name")}
		for _, t := range ts {
			if t.Has(code) && (t.Status == tiles.Planned || t.Status == tiles.Fired) {
				leaving.Tiles++
				if t.Status == tiles.Fired {
					leaving.Fired++
				}
			}
		}
		if at := slices.IndexFunc(e.Rows, func(r content.ListRow) bool { return r.Of == i }); at >= 0 {
			leaving.Now = e.Rows[at].Cell("code")
		}
		if leaving.Tiles > 0 {
			out = append(out, leaving)
		}
	}
	return out, nil
}

// Brought is where the spreadsheet's file lies that a list was made from.
type Brought struct{ Aside string }

// ListFromBook makes content/glazes.csv of a list that is a spreadsheet's own
// file, which is kept beside it under another name.
func ListFromBook(dir folder.Folder, file, seen string) (Brought, error) {
	c, err := take(dir)
	if err != nil {
		return Brought{}, err
	}
	defer c.end()
	was, sum, err := Look(dir, file)
	if err != nil {
		return Brought{}, err
	}
	if sum != seen {
		return Brought{}, ErrStale{File: file}
	}
	text, err := asCSV(file, was)
	if err != nil {
		return Brought{}, err
	}
	aside := ""
	for i := 1; aside == "" || dir.Has(aside); i++ {
		aside = fmt.Sprintf("content/list-%d-as-it-was%s", i, file[len("content/glazes"):])
	}
	if err := c.begin(); err != nil {
		return Brought{}, err
	}
	if err := dir.WriteBytes(aside, was); err != nil {
		return Brought{}, err
	}
	if err := dir.WriteBytes(content.GlazesCSV, text); err != nil {
		return Brought{}, err
	}
	return Brought{aside}, folder.Explain(file, dir.Remove(file))
}

// asCSV is the table that a spreadsheet's file shows, its cells guarded.
func asCSV(file string, data []byte) ([]byte, error) {
	text, err := book.CSV(file, data)
	if err != nil {
		return nil, err
	}
	t, err := table.Read(file, bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	err = t.Write(&out)
	return out.Bytes(), err
}
