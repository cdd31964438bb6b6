package bench

import (
	"fmt"
	"slices"
	"strings"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/run"
	"github.com/twodip/twodip/tiles/table/book"
)

// glazesPage is what the page shows.
type glazesPage struct {
	File, Seen string
	Broken     []string // why the file cannot be taken apart
	Book       bool     // it is a spreadsheet's own file: for reading only
	Elsewhere  []string // what in wall.yaml does not go with the list
	Say        []string // what was done to the form, before it is saved
	Wrong      []string // what is wrong with the list as a whole
	Marked     string   // how many places are marked; "" = none
	Asks       []ask
	Rows       []glazeRow
	Pasted     string
	PasteWrong string
	BringWrong string
}

func (p *glazesPage) Reads() []string { return []string{p.File, content.SettingsFile} }
func (p *glazesPage) Script() string  { return "glazes.js" }

// glazeRow is a glaze in the form.
type glazeRow struct {
	I, Of, Number int // its name in the form; its row of the file, −1 = none; as it is counted on the page
	Called        string
	Code, Name    cell
	Color, Finish cell
	More          []cell // what is folded away
	Traits        []trait
	TraitsWrong   string
	Shades        []choice
	ShadeWrong    string
	Retired       bool
	Proposed      bool // its code was just proposed
	First, Last   bool
	Open          bool // something that is folded away is wrong
	Brief         string
}

// cell is one field of a row: its name in the form and on the page, its column,
// what it is called, what stands in it and what is wrong with it.
type cell struct{ Name, ID, Column, Label, Value, Says string }

// formKey is a column's name in the form.
func formKey(column string) string { return strings.ToLower(strings.TrimSpace(column)) }

type trait struct {
	Value, Words string
	On           bool
}

type choice struct {
	Value, Text string
	On          bool
}

// ask is a question about a glaze that would leave the list.
type ask struct {
	Field, Code, Name, Now, Has string
	Gone                        bool // its row is taken out
}

func newGlazesPage(f glazesForm) *glazesPage {
	return &glazesPage{File: f.File, Seen: f.Seen, Book: book.Is(f.File)}
}

// foldedCells are the columns of ours that are folded away, as they are called.
var foldedCells = [][2]string{{"sg", "Specific gravity"}, {"cone", "Cone"}, {"cautions", "Cautions, parted by semicolons"}, {"notes", "Notes"}}

// mostOwn is how many columns of the studio's own are shown; more stay in the
// file.
const mostOwn = 6

func (p *glazesPage) fill(f glazesForm, named map[int]bool) {
	wrong := map[int]map[string][]string{}
	marked := 0
	for _, w := range content.CheckList(f.File, f.List.Rows) {
		if w.Row < 0 {
			if len(f.List.Rows) > 0 {
				p.Wrong = append(p.Wrong, sentence(w.Problem))
			}
			continue
		}
		if wrong[w.Row] == nil {
			wrong[w.Row] = map[string][]string{}
		}
		wrong[w.Row][w.Column] = append(wrong[w.Row][w.Column], sentence(w.Problem))
		marked++
	}
	if marked > 0 {
		p.Marked = english.Count(marked, "place is", "places are") + " marked below. Nothing is saved until they are mended."
	}
	for i, r := range f.List.Rows {
		row := p.newRow(f.List, r, wrong[i])
		row.Proposed = named[i]
		p.Rows = append(p.Rows, row)
	}
	p.number()
}

func (p *glazesPage) newRow(l content.List, r content.ListRow, wrong map[string][]string) glazeRow {
	row := glazeRow{I: len(p.Rows), Of: r.Of}
	cells := 0
	at := func(name, label string) cell {
		cells++
		column := name
		if name == "color" && slices.ContainsFunc(l.Columns, func(c string) bool { return formKey(c) == "colour" }) {
			column = "colour"
		}
		return cell{Name: fmt.Sprintf("%s.%d", formKey(column), row.I), ID: fmt.Sprintf("c%d-%d", cells, row.I), Column: formKey(name), Label: label,
			Value: r.Cell(column), Says: strings.Join(wrong[formKey(name)], " ")}
	}
	row.Code, row.Name, row.Color, row.Finish = at("code", "Code"), at("name", "Name"), at("color", "Fired color"), at("finish", "Finish")
	for _, c := range foldedCells {
		row.More = append(row.More, at(c[0], c[1]))
	}
	for _, name := range ownColumns(l) {
		row.More = append(row.More, at(name, name))
	}
	for _, c := range row.More {
		row.Open = row.Open || c.Says != ""
	}
	row.Traits = traitsOf(r.Cell("traits"))
	row.TraitsWrong, row.ShadeWrong = strings.Join(wrong["traits"], " "), strings.Join(wrong["shade"], " ")
	row.Open = row.Open || row.TraitsWrong != "" || row.ShadeWrong != ""
	row.Shades = shadesOf(r.Cell("shade"))
	row.Retired = content.SaysYes(r.Cell("retired"))
	row.Brief = briefly(row)
	row.Called = row.Name.Value
	if row.Called == "" {
		row.Called = "this row"
	}
	return row
}

// ownColumns are the studio's own headings that are shown.
func ownColumns(l content.List) []string {
	var out []string
	for _, name := range l.Columns {
		key := formKey(name)
		if key != "" && key != "colour" && !slices.Contains(content.ListColumns, key) && len(out) < mostOwn {
			out = append(out, name)
		}
	}
	return out
}

// traitWords are the traits in the trade's words, as a switch says them.
var traitWords = map[tiles.Trait]string{
	tiles.Runny: "runs", tiles.Crawls: "crawls", tiles.Slick: "dries slick", tiles.Soluble: "soluble salts: gloves, dipped once",
	tiles.Colorant: "strong colorant: dipped last", tiles.NotFood: "never for food", tiles.NeverFirst: "never goes on 1st", tiles.NeverSecond: "never goes on 2nd",
}

func traitsOf(value string) []trait {
	have := content.TraitsIn(value)
	var out []trait
	for _, t := range tiles.Traits {
		out = append(out, trait{Value: string(t), Words: traitWords[t], On: slices.Contains(have, t)})
	}
	for _, t := range have {
		if !slices.Contains(tiles.Traits, t) {
			out = append(out, trait{Value: string(t), Words: "“" + string(t) + "”, which is no trait", On: true})
		}
	}
	return out
}

func shadesOf(value string) []choice {
	out := []choice{{"", "not said", value == ""}}
	for _, s := range []string{"light", "mid", "dark"} {
		out = append(out, choice{s, s, strings.EqualFold(value, s)})
	}
	if !slices.ContainsFunc(out, func(c choice) bool { return c.On }) {
		out = append(out, choice{value, value, true})
	}
	return out
}

// briefly says what is folded away.
func briefly(row glazeRow) string {
	var out []string
	if row.Retired {
		out = append(out, "no longer mixed")
	}
	for _, t := range row.Traits {
		if t.On {
			words, _, _ := strings.Cut(t.Words, ":")
			out = append(out, words)
		}
	}
	return strings.Join(out, ", ")
}

// addBlank adds empty rows.
func (p *glazesPage) addBlank(count int) {
	if p.Book {
		return
	}
	l := content.List{Columns: content.ListColumns}
	for range count {
		p.Rows = append(p.Rows, p.newRow(l, content.ListRow{Of: -1, Cells: map[string]string{}}, nil))
	}
	p.number()
}

func (p *glazesPage) number() {
	for i := range p.Rows {
		p.Rows[i].Number, p.Rows[i].First, p.Rows[i].Last = i+1, i == 0, i == len(p.Rows)-1
	}
}

func newAsk(l run.Leaving) ask {
	has := "It is on " + english.Count(l.Tiles, "tile", "tiles")
	if l.Fired > 0 {
		has += fmt.Sprintf(", %d of them fired", l.Fired)
	}
	return ask{Field: "leaves." + l.Code, Code: l.Code, Name: l.Name, Now: l.Now, Has: has + ".", Gone: l.Now == ""}
}
