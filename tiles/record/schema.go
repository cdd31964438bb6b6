// Package record keeps the files below a wall's tiles/ folder: the plan, the
// readings, the log, the buckets and the firings. A file is written whole or
// not at all, and what its owner added (columns, remarks, order) stays.
package record

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// column is one heading and how its cell is said and read. set gets the cell
// without the spaces around it; its error completes "tile 7 …".
type column[T any] struct {
	name string
	get  func(*table.Table, T) string
	set  func(*T, string) error
}

// schema is one file: its place in the wall, its columns in the order of a new
// file, and what tells its rows apart.
type schema[T any] struct {
	file    string // below the wall, forward slashes
	needed  []string
	columns []column[T]
	key     func(T) string
	line    func(*T, int) // keeps the line of a row; nil = not kept
	whole   func(*T)      // takes from a row that is read what no cell says alone; nil = nothing
	keep    bool          // rows that are not written again stay in the file
	unique  string        // says of a key that comes twice what is wrong; "" = it may

	order func(a, b T) int // a new row goes where it comes in a file that is in this order; nil = it follows
}

// read reads the rows of the file; no file is no rows.
func (s schema[T]) read(dir folder.Folder) ([]T, error) {
	t, err := s.open(dir)
	if err != nil || t == nil {
		return nil, err
	}
	return s.rows(t)
}

// rows reads every row of the table, or says everything wrong with it.
func (s schema[T]) rows(t *table.Table) ([]T, error) {
	ps := t.Need(s.needed...)
	if len(ps) > 0 {
		return nil, ps
	}
	var out []T
	lines := map[string]int{}
	for _, r := range t.Data() {
		one, problems := s.parse(t, r)
		if len(problems) == 0 {
			problems = s.once(t, lines, s.key(one), r.Line)
		}
		ps = append(ps, problems...)
		out = append(out, one)
	}
	if len(ps) > 0 {
		return nil, ps
	}
	return out, nil
}

// once holds a key to one row, where the file wants that.
func (s schema[T]) once(t *table.Table, lines map[string]int, key string, line int) tiles.Problems {
	first := lines[key]
	if s.unique == "" || first == 0 {
		lines[key] = line
		return nil
	}
	return tiles.Problems{t.Problem(line, fmt.Sprintf(s.unique, key, first), "remove one of the two rows")}
}

// open reads the file as a table; nil where there is none.
func (s schema[T]) open(dir folder.Folder) (*table.Table, error) {
	f, err := dir.Open(s.file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return table.Read(s.file, f)
}

func (s schema[T]) parse(t *table.Table, r table.Row) (T, tiles.Problems) {
	var one T
	var ps tiles.Problems
	if s.line != nil {
		s.line(&one, r.Line)
	}
	for _, c := range s.columns {
		cell := t.Cell(r, c.name)
		if cell == "" && !s.isNeeded(c.name) {
			continue
		}
		if err := c.set(&one, cell); err != nil {
			ps = append(ps, t.Problem(r.Line, c.name+" "+err.Error(), ""))
		}
	}
	if s.whole != nil {
		s.whole(&one)
	}
	return one, ps
}

func (s schema[T]) isNeeded(name string) bool {
	for _, n := range s.needed {
		if n == name {
			return true
		}
	}
	return false
}

// write puts the rows into the file. Rows keep their place and the cells we do
// not know; a cell that says the same as before is left as it was typed. New
// rows follow. A file that cannot be read is left alone.
func (s schema[T]) write(dir folder.Folder, rows []T) error {
	t, err := s.open(dir)
	if err != nil {
		return err
	}
	if t == nil {
		t = table.New(s.file, s.names()...)
	} else if _, err := s.rows(t); err != nil {
		return err
	}
	s.merge(t, rows)
	return writeTable(dir, s.file, t, func(again *table.Table) error {
		_, err := s.rows(again)
		return err
	})
}

// writeTable writes a table that reads the same: one that could not be read
// again would shut the wall.
func writeTable(dir folder.Folder, file string, t *table.Table, read func(*table.Table) error) error {
	var text bytes.Buffer
	if err := t.Write(&text); err != nil {
		return err
	}
	again, err := table.Read(file, bytes.NewReader(text.Bytes()))
	if err == nil {
		err = read(again)
	}
	var ps tiles.Problems
	if errors.As(err, &ps) {
		p := ps[0]
		return tiles.Problems{{File: file, What: fmt.Sprintf("is left as it was: line %d could not be read again: %s", p.Line, p.What), Do: p.Do}}
	}
	if err != nil {
		return err
	}
	return dir.WriteBytes(file, text.Bytes())
}

// check holds one row to what can be read again.
func (s schema[T]) check(one T) error {
	t := table.New(s.file, s.names()...)
	var again T
	for _, c := range s.columns {
		cell := c.get(t, one)
		if !utf8.ValidString(cell) || strings.ContainsRune(cell, 0) {
			return fmt.Errorf("%s %q is not text in UTF-8", c.name, cell)
		}
		if cell == "" && !s.isNeeded(c.name) {
			continue
		}
		if err := c.set(&again, cell); err != nil {
			return fmt.Errorf("%s %w", c.name, err)
		}
	}
	return nil
}

func (s schema[T]) names() []string {
	var names []string
	for _, c := range s.columns {
		names = append(names, c.name)
	}
	return names
}

// merge updates the table's rows by their key, drops or keeps the others, and
// puts in what is new.
func (s schema[T]) merge(t *table.Table, rows []T) {
	waiting := map[string][]T{}
	for _, one := range rows {
		waiting[s.key(one)] = append(waiting[s.key(one)], one)
	}
	var out []table.Row
	var stay []T // what out says, without its remarks
	for _, r := range t.Rows {
		if r.Remark {
			out = append(out, r)
			continue
		}
		old, _ := s.parse(t, r) // read before, without a problem
		k := s.key(old)
		switch found := waiting[k]; {
		case len(found) > 0:
			s.fill(t, &r, &old, found[0])
			waiting[k] = found[1:]
			out, stay = append(out, r), append(stay, found[0])
		case s.keep:
			out, stay = append(out, r), append(stay, old)
		}
	}
	var fresh []T
	for _, one := range rows {
		if k := s.key(one); len(waiting[k]) > 0 {
			fresh = append(fresh, waiting[k][0])
			waiting[k] = waiting[k][1:]
		}
	}
	t.Rows = s.joined(t, out, stay, fresh)
}

// joined puts new rows behind the others, or, in a file that is in order, where
// they come in it: what was read bit by bit then stands as if it had been read at
// once. A remark goes with the row below it.
func (s schema[T]) joined(t *table.Table, rows []table.Row, stay, fresh []T) (out []table.Row) {
	ordered := s.order != nil && slices.IsSortedFunc(stay, s.order) && slices.IsSortedFunc(fresh, s.order)
	put := func(until func(T) bool) {
		for ; len(fresh) > 0 && until(fresh[0]); fresh = fresh[1:] {
			var r table.Row
			s.fill(t, &r, nil, fresh[0])
			out = append(out, r)
		}
	}
	begun := 0 // where the remarks above the next row begin
	for i, r := range rows {
		if r.Remark {
			continue
		}
		if ordered {
			put(func(one T) bool { return s.order(one, stay[0]) < 0 })
		}
		out, begun, stay = append(out, rows[begun:i+1]...), i+1, stay[1:]
	}
	put(func(T) bool { return true })
	return append(out, rows[begun:]...)
}

// fill writes what differs between old and now into the row's cells; old is
// nil for a new row. A heading that nothing needs is not added.
func (s schema[T]) fill(t *table.Table, r *table.Row, old *T, now T) {
	for _, c := range s.columns {
		value, before := c.get(t, now), ""
		if old != nil {
			before = c.get(t, *old)
		}
		if value != before {
			r.Set(t.AddColumn(c.name), value)
		}
	}
}
