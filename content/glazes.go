package content

import (
	"bytes"
	"errors"
	"io/fs"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// The two forms of a glaze list; a wall has exactly one of them.
const (
	GlazesCSV  = "content/glazes.csv"
	GlazesYAML = "content/glazes.yaml"
)

// MaxGlazes is as many as the tile numbers reach for (300 × 300 pairs).
const MaxGlazes = 300

// ReadGlazes reads the glaze list of the wall in dir, in the teacher's order.
// A CSV needs the columns code and name; finish, cone, color, notes, cautions,
// traits, sg, shade and retired are optional; others are the teacher's own.
func ReadGlazes(dir folder.Folder) ([]tiles.Glaze, error) {
	fromCSV, errCSV := dir.Read(GlazesCSV, table.MaxBytes)
	fromYAML, errYAML := readText(dir, GlazesYAML, maxYAML)
	switch noCSV, noYAML := errors.Is(errCSV, fs.ErrNotExist), errors.Is(errYAML, fs.ErrNotExist); {
	case noCSV && noYAML:
		return nil, noGlazes(dir)
	case !noCSV && !noYAML:
		return nil, problem(GlazesCSV, 0, "there is also "+GlazesYAML+", and a wall has one glaze list",
			"keep one of the two and move the other away")
	case !noCSV && errCSV != nil:
		return nil, errCSV
	case !noCSV:
		return ParseGlazesCSV(fromCSV)
	case errYAML != nil:
		return nil, errYAML
	}
	return ParseGlazesYAML(fromYAML)
}

// noGlazes says that there is no list, and looks for one saved in a form that
// is not read.
func noGlazes(dir folder.Folder) error {
	for _, near := range []string{"glazes.xlsx", "glazes.xls", "glazes.ods", "glazes.numbers"} {
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
func ParseGlazesCSV(raw []byte) ([]tiles.Glaze, error) {
	t, err := table.Read(GlazesCSV, bytes.NewReader(raw))
	if err != nil {
		return nil, err
	}
	if ps := t.Need("code", "name"); len(ps) > 0 {
		return nil, ps
	}
	l := list{file: GlazesCSV}
	for _, r := range t.Data() {
		l.add(written{
			line: r.Line, code: t.Cell(r, "code"), name: t.Cell(r, "name"),
			finish: t.Cell(r, "finish"), cone: t.Cell(r, "cone"),
			color: t.Cell(r, "color") + t.Cell(r, "colour"), notes: t.Cell(r, "notes"),
			cautions: split(t.Cell(r, "cautions"), ";|\n"), traits: split(t.Cell(r, "traits"), ";|,\n"),
			sg: t.Cell(r, "sg"), shade: t.Cell(r, "shade"), retired: t.Cell(r, "retired"),
		})
	}
	return l.done()
}

// split cuts a cell into its entries.
func split(cell, at string) []string {
	return strings.FieldsFunc(cell, func(r rune) bool { return strings.ContainsRune(at, r) })
}
