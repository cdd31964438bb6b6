package content

import (
	"bytes"
	"errors"
	"io/fs"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
	"github.com/twodip/twodip/tiles/table/book"
)

// The forms of a glaze list; a wall has exactly one of them. Those of a
// spreadsheet's own making are read and never written.
const (
	GlazesCSV  = "content/glazes.csv"
	GlazesYAML = "content/glazes.yaml"
	GlazesXLSX = "content/glazes.xlsx"
	GlazesODS  = "content/glazes.ods"
)

// MaxGlazes is as many as the tile numbers reach for (300 × 300 pairs).
const MaxGlazes = 300

// ReadGlazes reads the glaze list of the wall in dir, in the teacher's order.
// A table needs the columns code and name; was, finish, cone, color, notes, cautions,
// traits, sg, shade and retired are optional; others are the teacher's own.
func ReadGlazes(dir folder.Folder) ([]tiles.Glaze, error) {
	found, err := glazeList(dir)
	switch {
	case err != nil:
		return nil, err
	case found == GlazesYAML:
		text, err := readText(dir, found, maxYAML)
		if err != nil {
			return nil, err
		}
		return ParseGlazesYAML(text)
	}
	raw, err := dir.Read(found, table.MaxBytes)
	if err == nil && book.Is(found) {
		raw, err = book.CSV(found, raw)
	}
	if err != nil {
		return nil, err
	}
	return parseGlazes(found, raw)
}

// glazeList is the form that the wall's list has.
func glazeList(dir folder.Folder) (string, error) {
	var found []string
	for _, form := range []string{GlazesCSV, GlazesYAML, GlazesXLSX, GlazesODS} {
		if _, err := dir.Info(form); !errors.Is(err, fs.ErrNotExist) {
			found = append(found, form)
		}
	}
	switch len(found) {
	case 0:
		return "", noGlazes(dir)
	case 1:
		return found[0], nil
	}
	return "", problem(found[0], 0, "there is also "+found[1]+newerOf(dir, found[1], found[0])+", and a wall has one glaze list",
		"keep one of the two and move the other away")
}

// newerOf says of two lists which one somebody worked on last.
func newerOf(dir folder.Folder, other, than string) string {
	a, errA := dir.Info(other)
	b, errB := dir.Info(than)
	if errA == nil && errB == nil && a.ModTime().After(b.ModTime()) {
		return ", saved later"
	}
	return ""
}

// noGlazes says that there is no list, and looks for one saved in a form that
// is not read.
func noGlazes(dir folder.Folder) error {
	for _, near := range []string{"glazes.xls", "glazes.numbers"} {
		if _, err := dir.Read("content/"+near, 0); !errors.Is(err, fs.ErrNotExist) {
			return problem("content/"+near, 0, "is a spreadsheet's own form", `open it in the spreadsheet and save it as "CSV UTF-8", named glazes.csv`)
		}
	}
	for _, near := range []string{"content/glazes.yml", "content/glazes.txt", "glazes.csv", "glazes.yaml", "content/glazes.csv.csv"} {
		if _, err := dir.Read(near, maxYAML); !errors.Is(err, fs.ErrNotExist) {
			return problem(near, 0, "may be the glaze list, but has another name", "call it "+GlazesCSV+" or "+GlazesYAML)
		}
	}
	return problem(GlazesCSV, 0, "there is no glaze list", "write one with the headings code,name and a row for each bucket")
}

// ParseGlazesCSV is ReadGlazes on the bytes of a glazes.csv.
func ParseGlazesCSV(raw []byte) ([]tiles.Glaze, error) { return parseGlazes(GlazesCSV, raw) }

func parseGlazes(file string, raw []byte) ([]tiles.Glaze, error) {
	t, err := table.Read(file, bytes.NewReader(raw))
	if err != nil {
		return nil, err
	}
	if ps := t.Need("code", "name"); len(ps) > 0 {
		return nil, ps
	}
	l := list{file: file, place: "line"}
	for _, r := range t.Data() {
		l.add(writtenIn(r.Line, func(name string) string { return t.Cell(r, name) }))
	}
	return l.done()
}

// split cuts a cell into its entries.
func split(cell, at string) []string {
	return strings.FieldsFunc(cell, func(r rune) bool { return strings.ContainsRune(at, r) })
}
