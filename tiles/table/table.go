// Package table reads and writes CSV tables the way spreadsheets save them.
//
// It reads RFC 4180 with what spreadsheets add: a byte-order mark, UTF-16,
// semicolons or tabs between cells, a decimal comma, a "sep=;" line. Line
// numbers are kept for messages; columns, remarks and blank rows it does not
// know are kept for writing. What it writes never starts a formula (see
// formula.go).
package table

import (
	"strings"

	"github.com/twodip/twodip/tiles"
)

// Table is one table in memory. The zero value of its marks is RFC 4180 in
// UTF-8 with line feeds; Read sets them to what it found, so that a file goes
// back the way its owner's spreadsheet likes it.
type Table struct {
	File    string   // path inside the wall, for messages
	Columns []string // headings, as written
	Line    int      // line of the headings
	Rows    []Row

	before       []Row // remarks above the headings
	comma        rune  // ',' ';' or tab; 0 is ','
	mark         bool  // begins with a byte-order mark
	crlf         bool
	decimalComma bool

	headed func(*Table) error // hears of the headings; nil = nobody
	each   func(Row) error    // takes the rows instead of Rows; nil = they are kept
}

// Row is one row below the headings. Cells may be fewer than the headings.
type Row struct {
	Line   int // 1 and up; 0 = made in code
	Cells  []string
	Remark bool // a remark ("# …") or a blank row: kept in its place, never data
}

// New is an empty table with the headings.
func New(file string, columns ...string) *Table {
	return &Table{File: file, Columns: columns}
}

// Column finds a heading, whatever its case and the spaces around it; -1 means
// that there is none.
func (t *Table) Column(name string) int {
	for i, c := range t.Columns {
		if strings.EqualFold(strings.TrimSpace(c), name) {
			return i
		}
	}
	return -1
}

// AddColumn finds the heading or appends it.
func (t *Table) AddColumn(name string) int {
	if i := t.Column(name); i >= 0 {
		return i
	}
	t.Columns = append(t.Columns, name)
	return len(t.Columns) - 1
}

// Cell is the row's cell below the heading, without the spaces around it; ""
// where the heading or the cell is missing.
func (t *Table) Cell(r Row, name string) string { return r.Cell(t.Column(name)) }

// Cell is the row's cell at the column, without the spaces around it.
func (r Row) Cell(column int) string {
	if column < 0 || column >= len(r.Cells) {
		return ""
	}
	return strings.TrimSpace(r.Cells[column])
}

// Set puts a value below a column, lengthening the row where needed.
func (r *Row) Set(column int, value string) {
	for len(r.Cells) <= column {
		r.Cells = append(r.Cells, "")
	}
	r.Cells[column] = value
}

// Data lists the rows that are neither remarks nor blank.
func (t *Table) Data() []Row {
	var rows []Row
	for _, r := range t.Rows {
		if !r.Remark {
			rows = append(rows, r)
		}
	}
	return rows
}

// Problem is something wrong at a line of the table.
func (t *Table) Problem(line int, what, do string) tiles.Problem {
	return tiles.Problem{File: t.File, Line: line, What: what, Do: do}
}

// Need gives a problem for each heading that is missing or written twice.
func (t *Table) Need(names ...string) tiles.Problems {
	var ps tiles.Problems
	for _, name := range names {
		if t.Column(name) < 0 {
			ps = append(ps, t.Problem(t.Line, "there is no column "+name,
				"the first row must hold the headings "+strings.Join(names, ", ")))
		}
	}
	return append(ps, t.twice()...)
}

func (t *Table) twice() tiles.Problems {
	var ps tiles.Problems
	seen := map[string]bool{}
	for _, c := range t.Columns {
		key := strings.ToLower(strings.TrimSpace(c))
		if key != "" && seen[key] {
			ps = append(ps, t.Problem(t.Line, "two columns are called "+strings.TrimSpace(c), "rename one of them"))
		}
		seen[key] = true
	}
	return ps
}
