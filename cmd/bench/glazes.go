package bench

import (
	"fmt"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/run"
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

// stale is an edit of a version that is no longer there, with what was typed.
type stale struct {
	run.ErrStale
	yours []field
}

func (s stale) Unwrap() error { return s.ErrStale }
