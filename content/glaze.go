package content

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/table"
)

// writtenGlaze is one entry of a glaze list as it was typed, in either form.
type writtenGlaze struct {
	line                                                            int
	code, name, was, finish, cone, color, notes, sg, shade, retired string
	cautions, traits                                                []string
}

// list gathers the glazes of one file and what is wrong with them.
type list struct {
	file     string
	place    string // what its entries are counted in: lines of a file, rows of a page
	glazes   []tiles.Glaze
	problems tiles.Problems
	beside   []string // the column that each problem is about; "" = the whole row
}

func (l *list) fail(line int, column, what, do string) {
	l.problems = append(l.problems, tiles.Problem{File: l.file, Line: line, What: what, Do: do})
	l.beside = append(l.beside, column)
}

func (l *list) add(w writtenGlaze) {
	g := tiles.Glaze{
		Code: tidy(w.code), Name: tidy(w.name), Was: tidy(w.was), Finish: tidy(w.finish), Cone: tidy(w.cone), Color: tidy(w.color),
		Notes: tidy(w.notes), Cautions: tidyAll(w.cautions), Shade: strings.ToLower(tidy(w.shade)), Line: w.line,
	}
	l.checkCode(g)
	l.checkWords(g)
	g.Traits = l.traits(w)
	g.SG = l.gravity(w)
	g.Retired = SaysYes(w.retired)
	l.glazes = append(l.glazes, g)
}

func (l *list) checkCode(g tiles.Glaze) {
	switch {
	case g.Code == "":
		l.fail(g.Line, "code", "there is no code", "give the glaze 1 to 4 letters or digits, unlike any other's")
		return
	case !isCode(g.Code):
		l.fail(g.Line, "code", fmt.Sprintf("the code %q is not 1 to 4 letters or digits", g.Code), "shorten it; it is written by hand on clay")
		return
	}
	if other, ok := tiles.FindGlaze(l.glazes, g.Code); ok {
		l.fail(g.Line, "code", fmt.Sprintf("the code %s is also in %s %d (%s)", g.Code, l.place, other.Line, other.Name), "give one of the two another code")
	}
}

func isCode(code string) bool {
	n := 0
	for _, r := range code {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			return false
		}
		n++
	}
	return n >= 1 && n <= 4
}

// Limits of a glaze's words, in letters. A sheet that has no room for a name
// says so itself.
const (
	maxName  = 250
	maxWord  = 60
	maxNotes = 2000
)

func (l *list) checkWords(g tiles.Glaze) {
	if g.Name == "" {
		l.fail(g.Line, "name", "the glaze "+g.Code+" has no name", "write what people call it")
	}
	for _, w := range []struct {
		what, text string
		most       int
	}{{"name", g.Name, maxName}, {"finish", g.Finish, maxWord}, {"cone", g.Cone, maxWord}, {"color", g.Color, maxWord},
		{"notes", g.Notes, maxNotes}, {"cautions", strings.Join(g.Cautions, ""), maxNotes}} {
		if n := len([]rune(w.text)); n > w.most {
			l.fail(g.Line, w.what, fmt.Sprintf("the %s has %d letters", w.what, n), fmt.Sprintf("shorten it to %d", w.most))
		}
	}
	if g.Shade != "" && !slices.Contains([]string{"light", "mid", "dark"}, g.Shade) {
		l.fail(g.Line, "shade", fmt.Sprintf("the shade is %q", g.Shade), "write light, mid or dark, or leave it empty")
	}
}

func (l *list) traits(w writtenGlaze) []tiles.Trait {
	var out []tiles.Trait
	for _, word := range tidyAll(w.traits) {
		t, known := traitOf(word)
		if !known {
			l.fail(w.line, "traits", fmt.Sprintf("there is no trait %q", word), "use one of "+traitNames())
			continue
		}
		if !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	return out
}

// traitOf is the trait that a word means, and the word itself where it means
// none.
func traitOf(word string) (t tiles.Trait, known bool) {
	t = tiles.Trait(strings.ToLower(strings.ReplaceAll(word, " ", "-")))
	if slices.Contains(tiles.Traits, t) {
		return t, true
	}
	return tiles.Trait(word), false
}

// TraitsIn are the traits that a cell of a list names, and the words in it that
// are none.
func TraitsIn(cell string) []tiles.Trait {
	var out []tiles.Trait
	for _, word := range tidyAll(split(cell, ";|,\n")) {
		if t, _ := traitOf(word); !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	return out
}

func traitNames() string {
	var names []string
	for _, t := range tiles.Traits {
		names = append(names, string(t))
	}
	return strings.Join(names, ", ")
}

// gravity reads a specific gravity: water is 1, and no bucket that can be
// dipped from reaches 2.5.
func (l *list) gravity(w writtenGlaze) float64 {
	if strings.TrimSpace(w.sg) == "" {
		return 0
	}
	sg, err := table.Number(w.sg)
	if err != nil || sg < 1 || sg > 2.5 {
		l.fail(w.line, "sg", fmt.Sprintf("the specific gravity is %q", w.sg), "write the weight of 100 ml in grams divided by 100, like 1.45")
		return 0
	}
	return sg
}

// SaysYes reads a yes or no; a date or a reason is a yes.
func SaysYes(cell string) bool {
	switch strings.ToLower(tidy(cell)) {
	case "", "no", "n", "false", "0":
		return false
	}
	return true
}

func (l *list) done() ([]tiles.Glaze, error) {
	if len(l.glazes) == 0 && len(l.problems) == 0 {
		l.fail(0, "", "lists no glaze", "write a row for each bucket: a code and a name")
	}
	if len(l.glazes) > MaxGlazes {
		l.fail(0, "", fmt.Sprintf("lists %d glazes", len(l.glazes)), fmt.Sprintf("a wall holds up to %d", MaxGlazes))
	}
	if len(l.problems) > 0 {
		return nil, l.problems
	}
	return l.glazes, nil
}

func tidyAll(words []string) []string {
	var out []string
	for _, w := range words {
		if w = tidy(w); w != "" {
			out = append(out, w)
		}
	}
	return out
}
