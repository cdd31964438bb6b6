package record

import (
	"fmt"
	"io"
	"iter"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/table"
)

// LogFile is the glazing log, one row a piece.
const LogFile = "tiles/log.csv"

// LogColumns is the headings of a new log, in order. More holds what people
// write of a third coat, so that it can be refused at the door.
var LogColumns = []string{
	"piece", "date", "maker", "clay", "bisque", "first", "second", "third", "how", "where", "foot",
	"load", "shelf", "result", "faults", "zone", "severity", "note",
}

// usualHeadings are other ways of heading a log (common practice, no source).
var usualHeadings = map[string]string{
	"id": "piece", "piece id": "piece", "pot": "piece", "timestamp": "date", "day": "date", "glazed on": "date",
	"initials": "maker", "student": "maker", "clay body": "clay", "bisque load": "bisque", "bisque firing": "bisque",
	"1st": "first", "first glaze": "first", "glaze 1": "first", "1st glaze": "first", "first coat": "first",
	"2nd": "second", "second glaze": "second", "glaze 2": "second", "2nd glaze": "second", "second coat": "second",
	"3rd": "third", "third glaze": "third", "glaze 3": "third", "third coat": "third",
	"method": "how", "glaze load": "load", "firing": "load", "kiln load": "load", "outcome": "result",
	"fault": "faults", "defect": "faults", "defects": "faults", "foot wiped": "foot", "notes": "note", "comment": "note", "comments": "note",
}

// Log is a table of pieces, read and checked.
type Log struct {
	Notes []string // headings read as another
	Left  []string // columns that are not the log's
	table *table.Table
	at    map[string]int
	dates tiles.DateOrder
}

// ReadLog reads tiles/log.csv of the wall; a wall without one has no pieces
// yet. Errors are tiles.Problems.
func ReadLog(dir string, s tiles.LogSettings) (*Log, error) {
	t, err := schema[tiles.Piece]{file: LogFile}.open(dir)
	if err != nil {
		return nil, err
	}
	if t == nil {
		t = table.New(LogFile, LogColumns...)
	}
	return newLog(t, s)
}

// ReadPieces reads a table of pieces from elsewhere: a log typed from paper, a
// spreadsheet's or a form's export. Errors are tiles.Problems of the file.
func ReadPieces(file string, r io.Reader, s tiles.LogSettings) (*Log, error) {
	t, err := table.Read(file, r)
	if err != nil {
		return nil, err
	}
	return newLog(t, s)
}

func newLog(t *table.Table, s tiles.LogSettings) (*Log, error) {
	h, ps := newHeadings(LogColumns, s.Headings, usualHeadings)
	if s.Dates != "" && s.Dates != tiles.DayFirst && s.Dates != tiles.MonthFirst {
		ps = append(ps, tiles.Problem{File: "wall.yaml", What: fmt.Sprintf("log: dates: %q is not known", s.Dates), Do: "write “day first” or “month first”"})
	}
	l := &Log{table: t, dates: s.Dates}
	var more tiles.Problems
	l.at, l.Notes, l.Left, more = h.place(t)
	ps = append(ps, more...)
	if _, ok := l.at["first"]; !ok {
		ps = append(ps, t.Problem(t.Line, "there is no column first, which says what went on the bisque",
			"add it, or say which of your headings it is under log: headings: in wall.yaml"))
	}
	if len(ps) > 0 {
		return nil, ps
	}
	for _, r := range t.Rows {
		if !r.Remark {
			_, more := l.piece(r)
			ps = append(ps, more...)
		}
	}
	return l, ps.OrNil()
}

// Each goes through the pieces in the order of the file; it may be asked again.
func (l *Log) Each() iter.Seq[tiles.Piece] {
	return func(yield func(tiles.Piece) bool) {
		for _, r := range l.table.Rows {
			if r.Remark {
				continue
			}
			if p, _ := l.piece(r); !yield(p) {
				return
			}
		}
	}
}

// Len is how many pieces there are.
func (l *Log) Len() int {
	n := 0
	for _, r := range l.table.Rows {
		if !r.Remark {
			n++
		}
	}
	return n
}

// cell is the row's cell below one of our names, with the line ends it will
// have when it is written.
func (l *Log) cell(r table.Row, name string) string {
	if i, ok := l.at[name]; ok {
		return strings.TrimSpace(lineEnds.Replace(r.Cell(i)))
	}
	return ""
}

var lineEnds = strings.NewReplacer("\r\n", "\n", "\r", "\n")

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
	p.Faults = split(l.cell(r, "faults"), ";,/+&\n")
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
	p.Zone, err = parseZone(l.cell(r, "zone"))
	note("zone", err)
	p.Severity, err = parseSeverity(l.cell(r, "severity"))
	note("severity", err)
	return p, ps
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
