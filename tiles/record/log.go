package record

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
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
	"bottom glaze": "first", "top glaze": "second",
	"1st": "first", "first glaze": "first", "glaze 1": "first", "1st glaze": "first", "first coat": "first",
	"2nd": "second", "second glaze": "second", "glaze 2": "second", "2nd glaze": "second", "second coat": "second",
	"3rd": "third", "third glaze": "third", "glaze 3": "third", "third coat": "third",
	"method": "how", "glaze load": "load", "firing": "load", "kiln load": "load", "outcome": "result",
	"fault": "faults", "defect": "faults", "defects": "faults", "foot wiped": "foot", "notes": "note", "comment": "note", "comments": "note",
}

// Log is a table of pieces, checked. One that stands in a file is read again
// each time it is gone through, so that a long log is never held in memory.
type Log struct {
	Notes []string // headings read as another
	Left  []string // columns that are not the log's
	rows  iter.Seq[table.Row]
	count int
	table *table.Table // its headings; its rows too where they are kept
	at    map[string]int
	dates tiles.DateOrder
}

// ReadLog reads tiles/log.csv of the wall; a wall without one has no pieces
// yet. What waits for it (WaitingFile) is read with it. Errors are tiles.Problems.
func ReadLog(dir folder.Folder, s tiles.LogSettings) (*Log, error) {
	if Waits(dir) {
		return readWhole(dir, s)
	}
	l := &Log{dates: s.Dates}
	var ps tiles.Problems
	words := faultWords{}
	err := eachFileRow(dir, func(t *table.Table) error {
		l.table = t
		return l.place(s)
	}, func(r table.Row) error {
		p, more := l.piece(r)
		ps = append(ps, more...)
		l.count++
		return words.add(l.table, p)
	})
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return newLog(table.New(LogFile, LogColumns...), s)
	case err != nil:
		return nil, err
	}
	l.rows = func(yield func(table.Row) bool) {
		// It was read to its end a moment ago: what fails now ends the rows.
		_ = eachFileRow(dir, func(*table.Table) error { return nil }, func(r table.Row) error {
			if !yield(r) {
				return errEnough
			}
			return nil
		})
	}
	return l, ps.OrNil()
}

// readWhole reads the log with what waits for it, in memory.
func readWhole(dir folder.Folder, s tiles.LogSettings) (*Log, error) {
	t, _, err := wholeText(dir, s)
	if err != nil {
		return nil, err
	}
	return newLog(t, s)
}

var errEnough = errors.New("enough")

func eachFileRow(dir folder.Folder, headed func(*table.Table) error, each func(table.Row) error) error {
	f, err := dir.Open(LogFile)
	if err != nil {
		return err
	}
	defer f.Close()
	return table.Each(LogFile, f, headed, each)
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

// newLog checks a table that is in memory.
func newLog(t *table.Table, s tiles.LogSettings) (*Log, error) {
	l := &Log{table: t, dates: s.Dates}
	l.rows = func(yield func(table.Row) bool) {
		for _, r := range t.Rows {
			if !r.Remark && !yield(r) {
				return
			}
		}
	}
	if err := l.place(s); err != nil {
		return nil, err
	}
	var ps tiles.Problems
	words := faultWords{}
	for r := range l.rows {
		p, more := l.piece(r)
		ps = append(ps, more...)
		l.count++
		if err := words.add(t, p); err != nil {
			return nil, err
		}
	}
	return l, ps.OrNil()
}

// mostWords bounds the different words of a log's faults: each of them is traced.
const mostWords = 2_000

// faultWords are the different words of a log's faults.
type faultWords map[string]bool

func (w faultWords) add(t *table.Table, p tiles.Piece) error {
	for _, word := range p.Faults {
		w[tiles.Fold(word)] = true
	}
	if len(w) <= mostWords {
		return nil
	}
	return tiles.Problems{t.Problem(p.Line, fmt.Sprintf("up to here the faults are written in more than %d different words", mostWords),
		"write a fault in one or two words, and what else is to say into the note")}
}

// place finds the columns by the table's headings.
func (l *Log) place(s tiles.LogSettings) error {
	h, ps := newHeadings(LogColumns, s.Headings, usualHeadings)
	if s.Dates != "" && s.Dates != tiles.DayFirst && s.Dates != tiles.MonthFirst {
		ps = append(ps, tiles.Problem{File: "wall.yaml", What: fmt.Sprintf("log: dates: %q is not known", s.Dates), Do: "write “day first” or “month first”"})
	}
	var more tiles.Problems
	l.at, l.Notes, l.Left, more = h.place(l.table)
	ps = append(ps, more...)
	if _, ok := l.at["first"]; !ok {
		ps = append(ps, l.table.Problem(l.table.Line, "there is no column first, which says what went on the bisque",
			ownHeadings(l.Left, "first", len(s.Headings) > 0)))
	}
	return ps.OrNil()
}

// Each goes through the pieces in the order of the file; it may be asked again.
func (l *Log) Each() iter.Seq[tiles.Piece] {
	return func(yield func(tiles.Piece) bool) {
		for r := range l.rows {
			if p, _ := l.piece(r); !yield(p) {
				return
			}
		}
	}
}

// Len is how many pieces there are.
func (l *Log) Len() int { return l.count }

// cell is the row's cell below one of our names.
func (l *Log) cell(r table.Row, name string) string {
	if i, ok := l.at[name]; ok {
		return r.Cell(i)
	}
	return ""
}

// ownHeadings says how wall.yaml tells which of a table's headings is one of
// the log's, with the line to write; begun says that it tells some already.
func ownHeadings(left []string, name string, begun bool) string {
	const shown = 8
	if len(left) == 0 {
		return "write " + name + " above the column that says it"
	}
	yours := strings.Join(left[:min(len(left), shown)], ", ")
	if len(left) > shown {
		yours += ", …"
	}
	return "say in wall.yaml which of yours it is (" + yours + "), with a line like this: " + HeadingLine(left[0], name, begun)
}

// HeadingLine is what to write in wall.yaml for a heading of one's own; begun
// says that some are written there already.
func HeadingLine(written, name string, begun bool) string {
	one := fmt.Sprintf("%s: %s", strconv.Quote(written), name)
	if begun {
		return one + " (below log: headings:)"
	}
	return "log: {headings: {" + one + "}}"
}
