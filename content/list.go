package content

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
	"github.com/twodip/twodip/tiles/table/book"
)

// List is a glaze list as a person edits it: a table of what is typed, right or
// wrong.
type List struct {
	File    string
	Columns []string // the file's headings, and then those of ours that it lacks
	Rows    []ListRow
}

// ListRow is one glaze of a list. Its cells are by heading, each as it would be
// shown in one line; traits and cautions are parted by semicolons.
type ListRow struct {
	Of    int // which row of the file it is, from 0; −1 = a new one
	Cells map[string]string
}

// Cell is what stands below a heading of ours, whatever the case it is written
// in.
func (r ListRow) Cell(name string) string {
	if v, ok := r.Cells[name]; ok {
		return v
	}
	for heading, v := range r.Cells {
		if strings.EqualFold(strings.TrimSpace(heading), name) {
			return v
		}
	}
	return ""
}

// blank says that nothing is typed in the row.
func (r ListRow) blank() bool {
	for _, v := range r.Cells {
		if strings.TrimSpace(v) != "" {
			return false
		}
	}
	return true
}

// ListColumns are the headings that a glaze list is offered, in the order in
// which they are typed. A list may have further ones of its owner's.
var ListColumns = []string{"code", "name", "color", "finish", "shade", "sg", "traits", "cautions", "cone", "notes", "retired"}

// ListFile is the form that the wall's glaze list has; GlazesCSV where it has
// none. Two lists are a problem.
func ListFile(dir folder.Folder) (string, error) {
	for _, form := range []string{GlazesCSV, GlazesYAML, GlazesXLSX, GlazesODS} {
		if _, err := dir.Info(form); !errors.Is(err, fs.ErrNotExist) {
			return glazeList(dir)
		}
	}
	return GlazesCSV, nil
}

// ParseList reads a list of that name for editing; nil is one that is not there
// yet. The error says why the file cannot be taken apart; that a cell in it is
// wrong is none (CheckList says so).
func ParseList(file string, raw []byte) (List, error) {
	l := List{File: file}
	switch {
	case raw == nil:
	case file == GlazesYAML:
		text, err := plainText(file, raw)
		if err != nil {
			return l, err
		}
		items, err := listItems(text)
		if err != nil {
			return l, err
		}
		l.addItems(items)
	default:
		if book.Is(file) {
			var err error
			if raw, err = book.CSV(file, raw); err != nil {
				return l, err
			}
		}
		t, err := table.Read(file, bytes.NewReader(raw))
		if err != nil {
			return l, err
		}
		l.addRows(t)
	}
	l.addColumns(ListColumns...)
	return l, nil
}

func (l *List) addRows(t *table.Table) {
	l.addColumns(t.Columns...)
	for i, r := range t.Data() {
		row := ListRow{Of: i, Cells: map[string]string{}}
		for c, name := range t.Columns {
			row.Cells[name] = tidy(r.Cell(c))
		}
		l.Rows = append(l.Rows, row)
	}
}

// addColumns adds headings that the list has not.
func (l *List) addColumns(names ...string) {
	for _, name := range names {
		if strings.TrimSpace(name) != "" && !slices.Contains(l.Columns, l.heading(name)) {
			l.Columns = append(l.Columns, name)
		}
	}
}

// heading is a heading as the list writes it, whatever its case; colour is
// color. One that it has not is itself.
func (l List) heading(name string) string {
	for _, c := range l.Columns {
		if d := strings.TrimSpace(c); strings.EqualFold(d, strings.TrimSpace(name)) || name == "color" && strings.EqualFold(d, "colour") {
			return c
		}
	}
	return name
}

func (l *List) addItems(items []*yaml.Node) {
	for i, n := range items {
		row := ListRow{Of: i, Cells: map[string]string{}}
		for k := 0; n.Kind == yaml.MappingNode && k+1 < len(n.Content); k += 2 {
			if shown, ok := shownIn(n.Content[k+1]); ok {
				l.addColumns(n.Content[k].Value)
				row.Cells[n.Content[k].Value] = shown
			}
		}
		l.Rows = append(l.Rows, row)
	}
}

// shownIn is a value in one line; a list's entries are parted by semicolons.
// What is deeper is not shown, and stays.
func shownIn(n *yaml.Node) (string, bool) {
	switch {
	case n.Kind == yaml.ScalarNode && n.Tag == "!!null":
		return "", true
	case n.Kind == yaml.ScalarNode:
		return tidy(n.Value), true
	case n.Kind == yaml.SequenceNode:
		var out []string
		for _, c := range n.Content {
			if c.Kind != yaml.ScalarNode {
				return "", false
			}
			out = append(out, tidy(c.Value))
		}
		return strings.Join(out, "; "), true
	}
	return "", false
}

// Beside is something wrong with a list, and the place that it is about.
type Beside struct {
	Row    int    // of the rows that were given, from 0; −1 = the list as a whole
	Column string // one of ListColumns; "" = the row as a whole
	tiles.Problem
}

// CheckList says all that is wrong with rows as they are typed. Blank rows are
// passed over.
func CheckList(file string, rows []ListRow) []Beside {
	l := list{file: file, place: "row"}
	at := map[int]int{}
	for i, r := range rows {
		if r.blank() {
			continue
		}
		at[i+1] = i
		l.add(writtenIn(i+1, r.Cell))
	}
	_, _ = l.done() // the problems it adds are read below
	var out []Beside
	for i, p := range l.problems {
		b := Beside{Row: -1, Column: l.beside[i], Problem: p}
		if row, ok := at[p.Line]; ok {
			b.Row = row
		}
		b.Line = 0 // it is the row that was given, which may be no line of the file
		out = append(out, b)
	}
	return out
}

// writtenIn takes an entry's cells by their headings.
func writtenIn(line int, cell func(string) string) writtenGlaze {
	return writtenGlaze{
		line: line, code: cell("code"), name: cell("name"), was: cell("was"),
		finish: cell("finish"), cone: cell("cone"),
		color: cell("color") + cell("colour"), notes: cell("notes"),
		cautions: split(cell("cautions"), ";|\n"), traits: split(cell("traits"), ";|,\n"),
		sg: cell("sg"), shade: cell("shade"), retired: cell("retired"),
	}
}

// EditedList is the list's file with these rows in this order; rows of it that
// are not named are gone. What was not changed stays as it was typed, byte for
// byte: remarks, columns and keys of its owner's, spaces, line ends. It is the
// very text it was given where nothing was changed. A change that could not be
// read again as it was meant is refused.
func EditedList(file string, raw []byte, rows []ListRow) ([]byte, error) {
	was, err := ParseList(file, raw)
	if err != nil {
		return nil, err
	}
	var want []ListRow
	for _, r := range rows {
		if r.Of >= len(was.Rows) {
			return nil, problem(file, 0, "has fewer rows than the page shows", "load the page again")
		}
		if r.Of >= 0 || !r.blank() {
			want = append(want, was.changedIn(r))
		}
	}
	var after []byte
	switch {
	case file == GlazesYAML:
		after, err = editedItems(raw, want)
	case book.Is(file):
		return nil, problem(file, 0, "is never written by twodip", "change it in the spreadsheet, or make "+GlazesCSV+" of it")
	default:
		after, err = editedRows(file, raw, want)
	}
	if err != nil {
		return nil, err
	}
	return after, readAgain(file, was, want, after)
}

// changedIn leaves in a row what says something else than the file.
func (l List) changedIn(r ListRow) ListRow {
	out := ListRow{Of: r.Of, Cells: map[string]string{}}
	for name, v := range r.Cells {
		name = l.heading(name)
		if v = tidy(v); r.Of < 0 && v != "" || r.Of >= 0 && v != tidy(l.Rows[r.Of].Cells[name]) {
			out.Cells[name] = v
		}
	}
	return out
}

func editedRows(file string, raw []byte, rows []ListRow) ([]byte, error) {
	if raw == nil {
		raw = []byte(strings.Join(ListColumns[:2], ",") + "\n")
	}
	k, err := table.Keep(file, raw)
	if err != nil {
		return nil, err
	}
	var added []string
	var want []table.Wanted
	for _, r := range rows {
		w := table.Wanted{Of: r.Of, Cells: map[int]string{}}
		for _, name := range namesIn(r.Cells) {
			column := k.Column(name)
			if i := slices.Index(added, name); column < 0 && i >= 0 {
				column = len(k.Columns) + i
			} else if column < 0 {
				added = append(added, name)
				column = len(k.Columns) + len(added) - 1
			}
			w.Cells[column] = r.Cells[name]
		}
		want = append(want, w)
	}
	return k.With(added, want)
}

// namesIn lists headings, ours first and in our order.
func namesIn(cells map[string]string) []string {
	var names []string
	for _, name := range ListColumns {
		if _, ok := cells[name]; ok {
			names = append(names, name)
		}
	}
	var own []string
	for name := range cells {
		if !slices.Contains(names, name) {
			own = append(own, name)
		}
	}
	slices.Sort(own)
	return append(names, own...)
}

// readAgain holds the text against what it should say.
func readAgain(file string, was List, want []ListRow, after []byte) error {
	is, err := ParseList(file, after)
	if err != nil {
		return err
	}
	if len(is.Rows) != len(want) {
		return problem(file, 0, fmt.Sprintf("would have %d rows where %d were typed: nothing is written", len(is.Rows), len(want)), "change it in the file itself")
	}
	for i, w := range want {
		should := map[string]string{}
		if w.Of >= 0 {
			for name, v := range was.Rows[w.Of].Cells {
				should[name] = v
			}
		}
		for name, v := range w.Cells {
			should[name] = v
		}
		for name, v := range should {
			if got := is.Rows[i].Cells[name]; got != tidy(v) {
				return problem(file, 0, fmt.Sprintf("in row %d, %q below %s would be read again as %q: nothing is written", i+1, v, name, got), "write it otherwise, or change it in the file itself")
			}
		}
	}
	return nil
}
