package bench

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/run"
	"github.com/twodip/twodip/tiles/table"
	"github.com/twodip/twodip/tiles/table/book"
)

// shiftGlaze moves a row up or down, for who has no script; nothing is saved.
func (b *Bench) shiftGlaze(a *asked) (string, error) {
	f, err := sentForm(a)
	if err != nil {
		return "", err
	}
	rows := f.List.Rows
	for name, by := range map[string]int{"up": -1, "down": 1} {
		at := slices.Index(a.PostForm["row"], a.PostForm.Get(name))
		if to := at + by; at >= 0 && to >= 0 && to < len(rows) {
			rows[at], rows[to] = rows[to], rows[at]
		}
	}
	return "", again{f.page(nil)}
}

func (b *Bench) moreRows(a *asked) (string, error) {
	f, err := sentForm(a)
	if err != nil {
		return "", err
	}
	page := f.page(nil)
	page.addBlank(7)
	return "", again{page}
}

func (b *Bench) pasteGlazes(a *asked) (string, error) {
	f, err := sentForm(a)
	if err != nil {
		return "", err
	}
	rows, err := content.PastedList(a.PostForm.Get("pasted"))
	if err != nil {
		page := f.page(nil)
		page.Pasted, page.PasteWrong = a.PostForm.Get("pasted"), plainly(err)
		return "", again{page}
	}
	return "", f.merged(rows)
}

// merged shows the form with rows that came from elsewhere; nothing is saved.
func (f glazesForm) merged(rows []content.ListRow) error {
	all, filled, added := content.Merged(f.List.Rows, rows)
	f.List.Rows = all
	page := f.page(proposed(all))
	page.Say = []string{fmt.Sprintf("%s added and %s filled in. Nothing is saved yet.", english.Count(added, "row was", "rows were"), english.Count(filled, "was", "were"))}
	return again{page}
}

// broughtFile is the file that was sent with a request.
func broughtFile(a *asked) (name string, rows []content.ListRow, err error) {
	in, head, err := a.FormFile("file")
	if err != nil {
		return "", nil, tiles.Problem{File: "the list", What: "was not sent", Do: "choose a file first: .csv, .xlsx or .ods"}
	}
	defer in.Close()
	data, err := io.ReadAll(io.LimitReader(in, table.MaxBytes+1))
	if err != nil {
		return "", nil, err
	}
	name = path.Base(strings.ReplaceAll(head.Filename, `\`, "/"))
	rows, err = content.BroughtList(name, data)
	return name, rows, err
}

// bringGlazes shows the list as it is with the rows of a file.
func (b *Bench) bringGlazes(a *asked) (string, error) {
	f, err := openList(a)
	if err != nil {
		return "", err
	}
	_, rows, err := broughtFile(a)
	if err != nil {
		page := f.page(nil)
		page.BringWrong = plainly(err)
		return "", again{page}
	}
	return "", f.merged(rows)
}

// readGlazes answers the script with a file's rows as cells parted by tabs, so
// that they join what is typed on the page.
func (b *Bench) readGlazes(a *asked) (string, error) {
	_, rows, err := broughtFile(a)
	if err != nil {
		return "", answered(a, map[string]any{"wrong": plainly(err)})
	}
	var out strings.Builder
	out.WriteString(strings.Join(content.ListColumns, "\t") + "\n")
	for _, r := range rows {
		var cells []string
		for _, name := range content.ListColumns {
			cells = append(cells, `"`+strings.ReplaceAll(r.Cell(name), `"`, `""`)+`"`)
		}
		out.WriteString(strings.Join(cells, "\t") + "\n")
	}
	return "", answered(a, map[string]any{"text": out.String()})
}

// errAnswered says that the answer is written.
var errAnswered = errors.New("the answer is written")

func answered(a *asked, what any) error {
	a.w.Header().Set("Content-Type", "application/json")
	if err := json.NewEncoder(a.w).Encode(what); err != nil {
		return err
	}
	return errAnswered
}

// checkGlazes answers the script with what is wrong so far, and with codes for
// the rows that have none.
func (b *Bench) checkGlazes(a *asked) (string, error) {
	f, err := sentForm(a)
	if err != nil {
		return "", err
	}
	type place struct {
		Row    string `json:"row"`
		Column string `json:"column"`
		Says   string `json:"says"`
	}
	said := struct {
		Wrong []place           `json:"wrong"`
		Codes map[string]string `json:"codes"`
	}{Wrong: []place{}, Codes: map[string]string{}}
	names := a.PostForm["row"]
	for i := range proposed(f.List.Rows) {
		said.Codes[names[i]] = f.List.Rows[i].Cell("code")
	}
	for _, w := range content.CheckList(f.File, f.List.Rows) {
		at := place{Column: w.Column, Says: sentence(w.Problem)}
		if w.Row >= 0 {
			at.Row = names[w.Row]
		}
		said.Wrong = append(said.Wrong, at)
	}
	return "", answered(a, said)
}

func (b *Bench) listFromBook(a *asked) (string, error) {
	file := a.FormValue("file")
	if !book.Is(file) {
		return "", tiles.Problem{File: file, What: "is no spreadsheet"}
	}
	did, err := run.ListFromBook(a.dir, file, a.FormValue("seen"))
	if err != nil {
		return "", err
	}
	return b.notes.leave("/glazes", note{Said: []string{"The glaze list is " + content.GlazesCSV + " now. The spreadsheet is kept as " + did.Aside + "."}}), nil
}
