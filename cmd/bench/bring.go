package bench

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"mime/multipart"
	"strings"
	"sync"

	"github.com/twodip/twodip/cmd/listen"
	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
	"github.com/twodip/twodip/tiles/table"
	"github.com/twodip/twodip/tiles/table/book"
)

// matchPart asks once which columns of the log a form's headings are.
type matchPart struct {
	File, Brought, Seen string
	Headings            []matchHeading
	Columns             []string
}

type matchHeading struct {
	Field, Heading, Example string
}

// brought keeps a table that was dropped until its headings are matched; one
// that is forgotten is dropped again.
type brought struct {
	mu   sync.Mutex
	key  string
	name string
	text []byte
}

func (b *brought) keep(name string, text []byte) (key string) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.key, b.name, b.text = listen.Key(), name, text
	return b.key
}

func (b *brought) take(key string) (name string, text []byte, ok bool) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.name, b.text, key != "" && key == b.key
}

// bringLog takes a form's export: straight into the log where its headings are
// known, else after they were matched.
func (b *Bench) bringLog(a *asked) (string, error) {
	name, text, err := broughtTable(a)
	if err != nil {
		return "", b.retryLog(a, nil, err)
	}
	s, err := content.ReadSettings(a.dir)
	if err != nil {
		return "", err
	}
	part, err := matchOf(name, text, s.Log)
	if err != nil {
		return "", b.retryLog(a, nil, err)
	}
	if part == nil {
		return b.takeLog(a, name, text)
	}
	part.Brought = b.notes.brought.keep(name, text)
	if _, part.Seen, err = run.Look(a.dir, content.SettingsFile); err != nil {
		return "", err
	}
	page := recordsFrame("log")
	page.Match = part
	return "", again{page}
}

func (b *Bench) takeLog(a *asked, name string, text []byte) (string, error) {
	did, err := run.Log(a.dir, []run.Rows{rowsIn(name, text)})
	if err != nil {
		return "", b.retryLog(a, nil, err)
	}
	return b.loggedNote(did), nil
}

// broughtTable is the file that was dropped or chosen, as it is.
func broughtTable(a *asked) (name string, text []byte, err error) {
	file, head, err := a.FormFile("file")
	if err != nil {
		return "", nil, tiles.Problem{File: "the form", What: "no file came with it", Do: "choose a .csv, .xlsx or .ods file"}
	}
	defer closeForm(file, a.MultipartForm)
	name = strings.TrimSpace(head.Filename)
	data, err := io.ReadAll(io.LimitReader(file, table.MaxBytes+1))
	if err != nil {
		return "", nil, err
	}
	return name, data, nil
}

func closeForm(file multipart.File, form *multipart.Form) {
	_ = file.Close()
	_ = form.RemoveAll() // what stays is in the system's own place for such files
}

// matchOf is the form in which the headings are matched; nil where all that is
// needed is known and nothing is left over.
func matchOf(name string, text []byte, s tiles.LogSettings) (*matchPart, error) {
	if book.Is(name) {
		var err error
		if text, err = book.CSV(name, text); err != nil {
			return nil, err
		}
	}
	t, err := table.Read(name, bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	left := record.UnknownHeadings(t, s)
	if len(left) == 0 {
		_, err := record.ReadPieces(name, bytes.NewReader(text), s)
		return nil, err
	}
	part := &matchPart{File: name, Columns: record.LogColumns}
	rows := t.Data()
	for i, at := range left {
		h := matchHeading{Field: fmt.Sprintf("column%d", i), Heading: strings.TrimSpace(t.Columns[at])}
		for _, r := range rows {
			if h.Example == "" {
				h.Example = r.Cell(at)
			}
		}
		part.Headings = append(part.Headings, h)
	}
	return part, nil
}

// matchLog writes what the headings stand for into wall.yaml, and takes the rows.
func (b *Bench) matchLog(a *asked) (string, error) {
	name, text, ok := b.notes.brought.take(a.FormValue("brought"))
	if !ok {
		return "", errors.New("the file is no longer here: drop it again")
	}
	s, err := content.ReadSettings(a.dir)
	if err != nil {
		return "", err
	}
	part, err := matchOf(name, text, s.Log)
	if err != nil {
		return "", err
	}
	more := map[string]string{}
	if part != nil {
		for _, h := range part.Headings {
			if to := a.FormValue(h.Field); to != "" {
				more[h.Heading] = to
			}
		}
	}
	if len(more) > 0 {
		err := run.Change(a.dir, run.Edit{File: content.SettingsFile, Seen: a.FormValue("seen"), Text: func(was []byte) ([]byte, error) { return content.WithHeadings(was, more) }})
		if err != nil {
			return "", err
		}
	}
	return b.takeLog(a, name, text)
}
