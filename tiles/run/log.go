package run

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"path/filepath"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/table"
	"github.com/twodip/twodip/tiles/table/book"
)

// Rows is a table of pieces from elsewhere: a log typed from paper, a
// spreadsheet's or a form's export.
type Rows struct {
	Name string // for messages
	Open func() (io.ReadCloser, error)
}

// RowsOf is the rows of a file that a person has named.
func RowsOf(path string) Rows {
	name := filepath.ToSlash(path)
	return Rows{name, func() (io.ReadCloser, error) {
		f, err := folder.Given(path)
		if errors.Is(err, fs.ErrNotExist) {
			return nil, tiles.Problem{File: visible(name), What: "cannot be opened", Do: "check the name"}
		}
		return f, err
	}}
}

// Logged is what log did.
type Logged struct {
	record.Added
	Pieces  int               `json:"pieces"`  // in the log now
	Waiting int               `json:"waiting"` // of them, for their firing
	Read    []string          `json:"read"`    // liberties taken in reading
	Unknown []logbook.Unknown `json:"unknown"` // what could not be read, taken as written
	Left    []string          `json:"left"`    // columns that stay out of the log
	Heading string            `json:"heading"` // what to write in wall.yaml to take the first of them in, as the note; "" = none is left
	Held    []logbook.Held    `json:"held"`    // pieces that must not be loaded as they are
}

// Log takes rows into tiles/log.csv, all of them or none; then, or without
// rows, it looks at every piece that waits for its firing.
func Log(dir folder.Folder, incoming []Rows) (Logged, error) {
	var did Logged
	wall, err := Load(dir)
	if err != nil {
		return did, err
	}
	if len(incoming) > 0 {
		if err := did.take(dir, wall, incoming); err != nil {
			return did, err
		}
	}
	l, err := record.ReadLog(dir, wall.Log)
	if err != nil {
		return did, err
	}
	did.Pieces = l.Len()
	ruled, _ := Verdicts(wall)
	pass, held := logbook.Waiting(wall, l.Each(), ruled)
	did.Waiting, did.Held = len(pass)+len(held), held
	return did, nil
}

// take reads all rows before anything is written.
func (did *Logged) take(dir folder.Folder, wall tiles.Wall, incoming []Rows) error {
	var ps Problems
	var all []record.Incoming
	clerk := logbook.NewClerk(wall.Glazes)
	for _, rows := range incoming {
		in, err := did.read(rows, wall.Log, clerk)
		ps.Add(err)
		all = append(all, in)
	}
	if err := ps.OrNil(); err != nil {
		return err
	}
	did.Read, did.Unknown = append(did.Read, clerk.Said()...), clerk.Unknown()
	c, err := take(dir)
	if err != nil {
		return err
	}
	defer c.end()
	if err := c.begin(); err != nil {
		return err
	}
	// No phone is told a number of these rows meanwhile.
	return atDesk(dir, func() error {
		if err := record.Fold(dir, wall.Log); err != nil {
			return err
		}
		did.Added, err = record.AddPieces(dir, wall.Log, all, logbook.NewClerk(wall.Glazes).Piece)
		return err
	})
}

// shownTable is a table as text: of a spreadsheet's own file, what it shows.
func shownTable(name string, from io.Reader) (io.Reader, error) {
	if !book.Is(name) {
		return from, nil
	}
	data, err := io.ReadAll(io.LimitReader(from, table.MaxBytes+1))
	if err != nil {
		return nil, err
	}
	text, err := book.CSV(name, data)
	return bytes.NewReader(text), err
}

// read reads one table in the clerk's words.
func (did *Logged) read(rows Rows, s tiles.LogSettings, clerk *logbook.Clerk) (record.Incoming, error) {
	in := record.Incoming{File: rows.Name}
	from, err := rows.Open()
	if err != nil {
		return in, err
	}
	defer from.Close()
	text, err := shownTable(rows.Name, from)
	if err != nil {
		return in, err
	}
	l, err := record.ReadPieces(rows.Name, text, s)
	if err != nil {
		return in, err
	}
	for _, n := range l.Notes {
		did.Read = append(did.Read, rows.Name+": "+n)
	}
	if len(l.Left) > 0 && did.Heading == "" {
		did.Heading = record.HeadingLine(l.Left[0], "note", len(s.Headings) > 0)
	}
	for _, column := range l.Left {
		did.Left = append(did.Left, rows.Name+": "+column)
	}
	for p := range l.Each() {
		in.Pieces = append(in.Pieces, clerk.Piece(p))
	}
	return in, nil
}
