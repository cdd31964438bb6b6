package bench

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strconv"
	"strings"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/run"
	"github.com/twodip/twodip/tiles/table"
	"github.com/twodip/twodip/tiles/table/book"
)

func glazesRoom() room {
	return room{path: "/glazes", name: "Glazes", file: "glazes", wall: true, show: (*Bench).showGlazes, does: map[string]does{
		"save": (*Bench).saveGlazes, "shift": (*Bench).shiftGlaze, "rows": (*Bench).moreRows, "paste": (*Bench).pasteGlazes,
		"bring": (*Bench).bringGlazes, "read": (*Bench).readGlazes, "check": (*Bench).checkGlazes, "book": (*Bench).listFromBook,
	}}
}

// blankRows is how many empty rows wait below a list.
const blankRows = 3

// glazesForm is the list as it was sent, or as it is shown first.
type glazesForm struct {
	File, Seen string
	List       content.List // its Rows are those of the form, in its order
}

func (b *Bench) showGlazes(a *asked) (any, error) {
	f, err := openList(a)
	if f.File == "" {
		return nil, err
	}
	page := newGlazesPage(f)
	if err != nil {
		page.Broken = sentences(err)
		return page, nil
	}
	page.fill(f, nil)
	page.addBlank(max(blankRows, min(number(a, "rows"), content.MaxGlazes)-len(page.Rows)))
	page.Elsewhere = elsewhere(a, f)
	return page, nil
}

func number(a *asked, name string) int {
	n, err := strconv.Atoi(a.FormValue(name))
	if err != nil {
		return 0
	}
	return n
}

// openList reads the wall's list as it is now. File is "" where there are two.
func openList(a *asked) (f glazesForm, err error) {
	file, err := content.ListFile(a.dir)
	if err != nil {
		return f, err
	}
	raw, seen, err := run.Look(a.dir, file)
	if err != nil {
		return f, err
	}
	f = glazesForm{File: file, Seen: seen}
	f.List, err = content.ParseList(file, raw)
	return f, err
}

// elsewhere says what in wall.yaml does not go with the list.
func elsewhere(a *asked, f glazesForm) []string {
	settings, err := content.ReadSettings(a.dir)
	glazes, wrong := content.ReadGlazes(a.dir)
	if err != nil || wrong != nil || f.Seen == run.Sum(nil) {
		return nil
	}
	if ps := content.CheckRules(settings, glazes); len(ps) > 0 {
		return sentences(ps)
	}
	return nil
}

// sentForm reads the form that was sent. Its rows are made of the file's own,
// so that what the form does not show stays.
func sentForm(a *asked) (glazesForm, error) {
	if err := a.ParseForm(); err != nil {
		return glazesForm{}, err
	}
	f, err := openList(a)
	if err != nil {
		return f, err
	}
	if seen := a.PostForm.Get("seen"); seen != f.Seen || a.PostForm.Get("file") != f.File {
		now, _, err := run.Look(a.dir, f.File)
		if err != nil {
			return f, err
		}
		return f, stale{run.ErrStale{File: f.File, Now: now}, []field{{"The glazes", typedRows(a)}}}
	}
	var rows []content.ListRow
	for _, i := range a.PostForm["row"] {
		rows = append(rows, sentRow(a, f.List, i))
	}
	f.List.Rows = rows
	return f, nil
}

// sentRow is a row of the form.
func sentRow(a *asked, l content.List, i string) content.ListRow {
	r := content.ListRow{Of: -1, Cells: map[string]string{}}
	if of, err := strconv.Atoi(a.PostForm.Get("of." + i)); err == nil && of >= 0 && of < len(l.Rows) {
		r.Of = of
		for name, v := range l.Rows[of].Cells {
			r.Cells[name] = v
		}
	}
	for _, name := range l.Columns {
		key := formKey(name) + "." + i
		switch ours := formKey(name); {
		case ours == "traits":
			r.Cells[name] = sentTraits(r.Cells[name], a.PostForm[key])
		case ours == "retired":
			r.Cells[name] = sentYes(r.Cells[name], a.PostForm.Has(key))
		case a.PostForm.Has(key):
			r.Cells[name] = a.PostForm.Get(key)
		}
	}
	return r
}

// sentTraits is the cell as it was where the same traits are chosen.
func sentTraits(was string, chosen []string) string {
	var have []string
	for _, t := range content.TraitsIn(was) {
		have = append(have, string(t))
	}
	a, b := slices.Sorted(slices.Values(have)), slices.Sorted(slices.Values(chosen))
	if slices.Equal(a, b) {
		return was
	}
	return strings.Join(chosen, "; ")
}

// sentYes is the cell as it was where it says the same: a date is a yes.
func sentYes(was string, yes bool) string {
	switch {
	case content.SaysYes(was) == yes:
		return was
	case yes:
		return "yes"
	}
	return ""
}

// typedRows are the rows that were sent, for a person to read.
func typedRows(a *asked) string {
	var out strings.Builder
	for _, i := range a.PostForm["row"] {
		var cells []string
		for _, name := range content.ListColumns {
			if v := strings.Join(a.PostForm[name+"."+i], "; "); v != "" {
				cells = append(cells, v)
			}
		}
		if len(cells) > 0 {
			out.WriteString(strings.Join(cells, ", ") + "\n")
		}
	}
	return out.String()
}

// takenOut are the form's rows without those that are to go.
func takenOut(a *asked, rows []content.ListRow) []content.ListRow {
	var out []content.ListRow
	for k, i := range a.PostForm["row"] {
		if !a.PostForm.Has("gone." + i) {
			out = append(out, rows[k])
		}
	}
	return out
}

// proposed gives codes to the rows that have a name and none.
func proposed(rows []content.ListRow) (named map[int]bool) {
	named = map[int]bool{}
	taken := map[string]bool{}
	for _, r := range rows {
		taken[tiles.CodeKey(r.Cell("code"))] = true
	}
	for i, r := range rows {
		if strings.TrimSpace(r.Cell("code")) != "" || strings.TrimSpace(r.Cell("name")) == "" {
			continue
		}
		if code := content.ProposeCode(r.Cell("name"), func(c string) bool { return taken[tiles.CodeKey(c)] }); code != "" {
			taken[tiles.CodeKey(code)], named[i] = true, true
			r.Cells[codeColumn(r)] = code
		}
	}
	return named
}

// codeColumn is the heading of the codes, as the list writes it.
func codeColumn(r content.ListRow) string {
	for name := range r.Cells {
		if strings.EqualFold(strings.TrimSpace(name), "code") {
			return name
		}
	}
	return "code"
}

func (b *Bench) saveGlazes(a *asked) (string, error) {
	f, err := sentForm(a)
	if err != nil {
		return "", err
	}
	f.List.Rows = takenOut(a, f.List.Rows)
	if named := proposed(f.List.Rows); len(named) > 0 {
		page := f.page(named)
		page.Say = []string{english.Count(len(named), "code was", "codes were") + " proposed. Change them as you like, then save: a code is written by hand on clay."}
		return "", again{page}
	}
	if wrong := content.CheckList(f.File, f.List.Rows); len(wrong) > 0 {
		return "", again{f.page(nil)}
	}
	edit := run.GlazesEdit{File: f.File, Seen: f.Seen, Rows: f.List.Rows}
	if err := f.settle(a, &edit); err != nil {
		return "", err
	}
	if err := run.EditGlazes(a.dir, edit); err != nil {
		return "", err
	}
	count := 0
	if glazes, err := content.ReadGlazes(a.dir); err == nil {
		count = len(glazes)
	}
	return b.notes.leave("/glazes", note{
		Said: []string{fmt.Sprintf("Saved: %s in %s.", english.Count(count, "glaze is", "glazes are"), f.File)},
		Next: &link{Href: "/plan", Text: "Next: plan the tiles"},
	}), nil
}

// settle asks about every glaze that would leave the list while tiles have it,
// and does as was answered.
func (f glazesForm) settle(a *asked, edit *run.GlazesEdit) error {
	leaving, err := run.Leaves(a.dir, *edit)
	if err != nil {
		return err
	}
	var open []run.Leaving
	for _, l := range leaving {
		switch a.PostForm.Get("leaves." + l.Code) {
		case "rename":
			edit.Renamed = append(edit.Renamed, l.Code)
		case "other":
		default:
			open = append(open, l)
		}
	}
	if len(open) == 0 {
		return nil
	}
	page := f.page(nil)
	for _, l := range open {
		page.Asks = append(page.Asks, newAsk(l))
	}
	return again{page}
}

func (f glazesForm) page(named map[int]bool) *glazesPage {
	page := newGlazesPage(f)
	page.fill(f, named)
	page.addBlank(blankRows)
	return page
}

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

// sentence is a problem beside the field that it is about.
func sentence(p tiles.Problem) string {
	says := p.What
	if p.Do != "" {
		says += "; " + p.Do
	}
	return upperFirst(says) + "."
}

func upperFirst(s string) string {
	r := []rune(s)
	if len(r) == 0 {
		return s
	}
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

// plainly is an error as a sentence beside its field.
func plainly(err error) string {
	var ps tiles.Problems
	var one tiles.Problem
	switch {
	case errors.As(err, &ps) && len(ps) > 0:
		one = ps[0]
	case errors.As(err, &one):
	default:
		return upperFirst(err.Error()) + "."
	}
	if one.Line > 0 {
		one.What = fmt.Sprintf("%s, line %d: %s", one.File, one.Line, one.What)
	} else {
		one.What = one.File + ": " + one.What
	}
	return sentence(one)
}

// stale is an edit of a version that is no longer there, with what was typed.
type stale struct {
	run.ErrStale
	yours []field
}

func (s stale) Unwrap() error { return s.ErrStale }
