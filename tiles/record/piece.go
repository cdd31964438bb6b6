package record

import (
	"fmt"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/table"
)

// piece reads one row.
func (l *Log) piece(r table.Row) (tiles.Piece, tiles.Problems) {
	p := tiles.Piece{
		ID: l.cell(r, "piece"), Maker: l.cell(r, "maker"), Clay: l.cell(r, "clay"), Bisque: l.cell(r, "bisque"),
		How: l.cell(r, "how"), Where: l.cell(r, "where"), Foot: l.cell(r, "foot"), Load: l.cell(r, "load"),
		Shelf: l.cell(r, "shelf"), Result: l.cell(r, "result"), Note: l.cell(r, "note"), Line: r.Line,
	}
	p.First = l.cell(r, "first")
	if coats := split(l.cell(r, "second"), coatMarks); len(coats) > 0 {
		p.Second, p.More = coats[0], coats[1:]
	}
	p.More = slices.Concat(p.More, split(l.cell(r, "third"), coatMarks))
	p.Faults = split(strings.ReplaceAll(l.cell(r, "faults"), " and ", ";"), ";,/+&\n")
	var ps tiles.Problems
	note := func(name string, err error) {
		if err != nil {
			ps = append(ps, l.table.Problem(r.Line, name+" "+err.Error(), ""))
		}
	}
	var err error
	if cell := l.cell(r, "date"); cell != "" {
		p.Date, err = parseDate(cell, l.dates)
		note("date", err)
	}
	note("faults", fewEnough(len(p.Faults)))
	note("second", fewEnough(len(p.More)))
	p.Zone, err = parseZone(l.cell(r, "zone"))
	note("zone", err)
	p.Severity, err = parseSeverity(l.cell(r, "severity"))
	note("severity", err)
	return p, ps
}

// mostInCell is more entries than anybody writes into one cell.
const mostInCell = 100

func fewEnough(entries int) error {
	if entries <= mostInCell {
		return nil
	}
	return fmt.Errorf("holds %d entries, and %d are the most: write what does not fit into the note", entries, mostInCell)
}

// coatMarks stand between the coats of a cell that names several. A comma is
// none of them: it may be part of a name.
const coatMarks = ";+→\n"

func split(cell, at string) []string {
	var parts []string
	for _, part := range strings.FieldsFunc(cell, func(r rune) bool { return strings.ContainsRune(at, r) }) {
		if part = strings.TrimSpace(part); part != "" {
			parts = append(parts, part)
		}
	}
	return parts
}

var zoneWords = map[string]tiles.Zone{
	"": "", "first": tiles.ZoneFirst, "1st": tiles.ZoneFirst, "first only": tiles.ZoneFirst,
	"overlap": tiles.ZoneOverlap, "both": tiles.ZoneOverlap,
	"second": tiles.ZoneSecond, "2nd": tiles.ZoneSecond, "second only": tiles.ZoneSecond,
	"whole": tiles.ZoneWhole, "all": tiles.ZoneWhole, "all over": tiles.ZoneWhole, "everywhere": tiles.ZoneWhole,
}

func parseZone(cell string) (tiles.Zone, error) {
	z, ok := zoneWords[strings.ToLower(strings.Join(strings.Fields(cell), " "))]
	if !ok {
		return "", fmt.Errorf("%q is not one of first, overlap, second, whole: write one of these, or nothing", cell)
	}
	return z, nil
}

func parseSeverity(cell string) (int, error) {
	switch cell {
	case "", "-":
		return 0, nil
	case "0", "1", "2", "3":
		return int(cell[0] - '0'), nil
	}
	return 0, fmt.Errorf("%q is not 0, 1, 2 or 3", cell)
}
