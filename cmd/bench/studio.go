package bench

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/run"
)

func studioRoom() room {
	return room{path: "/studio", name: "Studio", file: "studio", wall: true, show: (*Bench).showStudio,
		does: map[string]does{"save": (*Bench).saveStudio, "show": (*Bench).drawStudio, "drawing": (*Bench).studioDrawing, "text": (*Bench).saveSettingsText}}
}

// studioPage is what the page shows.
type studioPage struct {
	Seen     string
	In       string // what lengths are typed in: mm or in
	InWords  string
	Groups   []settingGroup
	Shelves  []shelfRow
	Wrong    []string // what is about no field of the page
	Marked   bool
	Drawings *drawings
	Unread   []string // why wall.yaml cannot be read
	Text     string   // it, as it stands
}

func (*studioPage) Reads() []string { return []string{content.SettingsFile} }
func (*studioPage) Script() string  { return "studio.js" }

type settingGroup struct {
	Name   string
	Fields []settingField
}

// settingField is a setting in the form.
type settingField struct {
	Name, ID, Label, Value, Says string
	Choices                      []choice // "" = it is typed
	Switch, On                   bool     // it is a yes or no
}

// shelfRow is a shelf in the form.
type shelfRow struct {
	I                        int
	Name, Width, Depth, Says string
	Shapes                   []choice
}

func (b *Bench) showStudio(a *asked) (any, error) {
	text, seen, err := run.Look(a.dir, content.SettingsFile)
	if err != nil {
		return nil, err
	}
	s, err := content.ParseSettings(text)
	if err != nil {
		return &studioPage{Seen: seen, Unread: sentences(err), Text: string(text)}, nil
	}
	return newStudioPage(s, seen, typedStudio{}), nil
}

// typedStudio is what was typed into the form, by the fields' names, and what
// is wrong with it.
type typedStudio struct {
	values  map[string]string
	says    map[string]string
	shelves []shelfRow
	wrong   []string
}

// newStudioPage shows settings, with what was typed over them.
func newStudioPage(s tiles.Settings, seen string, typed typedStudio) *studioPage {
	p := &studioPage{Seen: seen, In: lengthsIn(s), Wrong: typed.wrong, Marked: len(typed.says) > 0}
	p.InWords = map[string]string{"mm": "millimetres", "in": "inches"}[p.In]
	for _, g := range settingGroups() {
		group := settingGroup{Name: g.name}
		for _, f := range g.fields {
			group.Fields = append(group.Fields, f.shown(s, p.In, typed))
		}
		p.Groups = append(p.Groups, group)
	}
	p.Shelves = typed.shelves
	if p.Shelves == nil {
		p.Shelves = shelfRows(s, p.In)
	}
	p.Drawings = draw(s)
	return p
}

// lengthsIn is what lengths are typed in.
func lengthsIn(s tiles.Settings) string {
	if s.Units == tiles.UnitsUS {
		return "in"
	}
	return "mm"
}

// shelfRows are the kiln's shelves, and one that may be added.
func shelfRows(s tiles.Settings, in string) []shelfRow {
	var out []shelfRow
	for i, shelf := range s.Kiln.Shelves {
		out = append(out, shelfRow{I: i, Name: shelf.Name, Width: shownLength(shelf.Width, in), Depth: shownLength(shelf.Depth, in), Shapes: shapes(shelf.Shape)})
	}
	return append(out, shelfRow{I: len(out), Shapes: shapes("round")})
}

func shapes(is string) []choice {
	return []choice{{"round", "round", is == "round"}, {"half-round", "half-round", is == "half-round"}, {"rectangle", "rectangular", is == "rectangle"}}
}

// sentSettings lays what was typed over the settings as they are. Nothing is
// written.
func sentSettings(a *asked, was tiles.Settings) (tiles.Settings, typedStudio) {
	s, in := was, a.FormValue("in")
	typed := typedStudio{values: map[string]string{}, says: map[string]string{}}
	for _, g := range settingGroups() {
		for _, f := range g.fields {
			typed.values[f.name] = a.PostForm.Get(f.name)
			if err := f.take(&s, was, typed.values[f.name], a.PostForm.Has(f.name), in); err != nil {
				typed.says[f.name] = err.Error() + "."
			}
		}
	}
	typed.sentShelves(a, &s, in)
	return s, typed
}

// sentShelves takes the shelves: a row without a name is none.
func (typed *typedStudio) sentShelves(a *asked, s *tiles.Settings, in string) {
	was := s.Kiln.Shelves
	s.Kiln.Shelves = nil
	for i := range 51 {
		key := func(name string) string { return fmt.Sprintf("shelf-%s.%d", name, i) }
		if !a.PostForm.Has(key("name")) {
			break
		}
		row := shelfRow{I: i, Name: strings.TrimSpace(a.PostForm.Get(key("name"))), Width: a.PostForm.Get(key("width")), Depth: a.PostForm.Get(key("depth")), Shapes: shapes(a.PostForm.Get(key("shape")))}
		if row.Name != "" {
			shelf := tiles.Shelf{Name: row.Name, Shape: a.PostForm.Get(key("shape"))}
			var old tiles.Shelf
			if i < len(was) {
				old = was[i]
			}
			var errW, errD error
			shelf.Width, errW = typedLength(row.Width, old.Width, in)
			shelf.Depth, errD = typedLength(row.Depth, old.Depth, in)
			if err := errors.Join(errW, errD); err != nil {
				row.Says = err.Error() + "."
				typed.says[key("name")] = row.Says
			}
			if shelf.Shape == "round" {
				shelf.Depth = shelf.Width
			}
			s.Kiln.Shelves = append(s.Kiln.Shelves, shelf)
		}
		typed.shelves = append(typed.shelves, row)
	}
	if len(typed.shelves) > 0 && typed.shelves[len(typed.shelves)-1].Name != "" {
		typed.shelves = append(typed.shelves, shelfRow{I: len(typed.shelves), Shapes: shapes("round")})
	}
}

// settle finds what is wrong with what was typed, and puts each problem beside
// its field. The text is wall.yaml as it would be.
func (typed *typedStudio) settle(text []byte, s tiles.Settings) []byte {
	if len(typed.says) > 0 {
		return nil
	}
	after, err := content.Resettled(text, s)
	var ps tiles.Problems
	switch {
	case err == nil:
		return after
	case !errors.As(err, &ps):
		typed.wrong = append(typed.wrong, err.Error())
	}
	for _, p := range ps {
		if name := fieldOf(p.What); name != "" {
			typed.says[name] = sentence(tiles.Problem{What: strings.TrimPrefix(p.What, strings.ReplaceAll(name, ".", ": ")+" "), Do: p.Do})
			continue
		}
		typed.wrong = append(typed.wrong, sentence(tiles.Problem{What: p.What, Do: p.Do}))
	}
	return nil
}

// fieldOf is the field that a problem begins with: "tile: width is 5 …".
func fieldOf(what string) string {
	for _, g := range settingGroups() {
		for _, f := range g.fields {
			if strings.HasPrefix(what, strings.ReplaceAll(f.name, ".", ": ")+" ") {
				return f.name
			}
		}
	}
	return ""
}

// typedOver is the form over wall.yaml as it is now.
func typedOver(a *asked) (text []byte, seen string, s tiles.Settings, typed typedStudio, err error) {
	if err = a.ParseForm(); err != nil {
		return
	}
	if text, seen, err = run.Look(a.dir, content.SettingsFile); err != nil {
		return
	}
	was, err := content.ParseSettings(text)
	if err != nil {
		return
	}
	s, typed = sentSettings(a, was)
	return
}

func (b *Bench) saveStudio(a *asked) (string, error) {
	text, seen, s, typed, err := typedOver(a)
	if err != nil {
		return "", err
	}
	if was := a.PostForm.Get("seen"); was != seen {
		return "", run.ErrStale{File: content.SettingsFile, Now: text}
	}
	after := typed.settle(text, s)
	if after == nil {
		return "", again{newStudioPage(s, seen, typed)}
	}
	err = run.Change(a.dir, run.Edit{File: content.SettingsFile, Seen: seen, Text: func([]byte) ([]byte, error) { return after, nil }})
	if err != nil {
		return "", err
	}
	said := []string{"Saved in wall.yaml. Only what you changed was written; all else in it is as it was."}
	if bytes.Equal(after, text) {
		said = []string{"Nothing was changed."}
	}
	return b.notes.leave("/studio", note{Said: said, Next: &link{Href: "/plan", Text: "Next: plan the tiles"}}), nil
}

// drawStudio shows the drawings of what is typed, for who has no script.
func (b *Bench) drawStudio(a *asked) (string, error) {
	text, seen, s, typed, err := typedOver(a)
	if err != nil {
		return "", err
	}
	typed.settle(text, s)
	return "", again{newStudioPage(s, seen, typed)}
}

// studioDrawing answers the script with the drawings of what is typed so far,
// and with what is wrong with it.
func (b *Bench) studioDrawing(a *asked) (string, error) {
	text, _, s, typed, err := typedOver(a)
	if err != nil {
		return "", err
	}
	typed.settle(text, s)
	var out bytes.Buffer
	if d := draw(s); d != nil {
		if err := b.pages.byName["studio"].ExecuteTemplate(&out, "drawings", d); err != nil {
			return "", err
		}
	}
	return "", answered(a, map[string]any{"drawings": out.String(), "wrong": typed.says, "whole": typed.wrong})
}

// saveSettingsText writes a wall.yaml that was mended by hand.
func (b *Bench) saveSettingsText(a *asked) (string, error) {
	text := strings.ReplaceAll(a.FormValue("text"), "\r\n", "\n")
	if _, err := content.ParseSettings([]byte(text)); err != nil {
		return "", again{&studioPage{Seen: a.FormValue("seen"), Unread: sentences(err), Text: text}}
	}
	return "", run.Change(a.dir, run.Edit{File: content.SettingsFile, Seen: a.FormValue("seen"), Text: func([]byte) ([]byte, error) { return []byte(text), nil }})
}
