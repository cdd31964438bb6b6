package door

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// sentPiece is what the form sends, as it was typed.
type sentPiece struct{ Key, First, Second, Third, Maker, Piece, How, Where, Clay, Foot string }

// mostLetters bounds a field of the form.
const mostLetters = 250

var keys = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[A-Za-z0-9._:-]{1,80}$`) })

// check reads what was sent; wrong says what it is refused for, a sentence each.
func (s sentPiece) check(w tiles.Wall, now time.Time) (a record.Arrival, wrong []string) {
	add := func(format string, args ...any) { wrong = append(wrong, fmt.Sprintf(format, args...)) }
	if !keys().MatchString(s.Key) {
		add("The form came without its key: open it again from a tile.")
	}
	for _, f := range []struct{ name, text string }{{"1st", s.First}, {"2nd", s.Second}, {"who", s.Maker}, {"what it is", s.Piece}, {"how", s.How}, {"where", s.Where}, {"clay", s.Clay}, {"foot", s.Foot}} {
		switch {
		case utf8.RuneCountInString(f.text) > mostLetters:
			add("“%s” is longer than %d letters: say it shorter.", f.name, mostLetters)
		case !utf8.ValidString(f.text) || strings.ContainsFunc(f.text, unicode.IsControl):
			add("“%s” holds signs that are no letters: type it again.", f.name)
		}
	}
	if strings.TrimSpace(s.Third) != "" || len(coats(s.Second)) > 1 || len(coats(s.First)) > 1 {
		add("A third coat is not fired here: two is the most.")
	} else {
		a.Piece.First = glazeOf(w, s.First, "1st", add)
		if a.Piece.Second = glazeOf(w, s.Second, "2nd", add); strings.TrimSpace(s.First) == "" {
			add("Say which glaze went on first.")
		}
		if w.Dip.Coats == 1 && a.Piece.Second != "" {
			add("This studio glazes with one coat.")
		}
	}
	a.Key = s.Key
	a.Piece.Maker, a.Piece.How, a.Piece.Where = strings.TrimSpace(s.Maker), strings.TrimSpace(s.How), strings.TrimSpace(s.Where)
	a.Piece.Clay, a.Piece.Foot, a.Piece.Date = strings.TrimSpace(s.Clay), footWord(s.Foot), now.Format(time.DateOnly)
	if what := strings.TrimSpace(s.Piece); ownName().MatchString(what) {
		a.Piece.ID = what
	} else {
		a.Piece.Note = what
	}
	return a, wrong
}

// ownName is a name that a piece carries already: a word with a figure in it.
var ownName = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[\pL]{1,8}[-.]?\d{1,9}[\pL]?$`) })

func coats(cell string) []string {
	return strings.FieldsFunc(cell, func(r rune) bool { return strings.ContainsRune(";+→\n", r) })
}

// footWord is what a box that is ticked stands for.
func footWord(sent string) string {
	switch sent = strings.TrimSpace(sent); strings.ToLower(sent) {
	case "on", "yes", "true", "1":
		return "wiped"
	}
	return sent
}

// glazeOf is the code of a glaze that is in use; "" where none is named.
func glazeOf(w tiles.Wall, sent, which string, add func(string, ...any)) string {
	if sent = strings.TrimSpace(sent); sent == "" {
		return ""
	}
	for _, g := range w.Glazes {
		if tiles.SameCode(g.Code, sent) || tiles.Fold(g.Name) == tiles.Fold(sent) {
			if g.Retired {
				add("%s is out of use: choose another as %s.", g.Name, which)
			}
			return g.Code
		}
	}
	add("No glaze here has the code “%s”, which was sent as %s: choose one from the list.", short(sent), which)
	return ""
}

func short(s string) string {
	if r := []rune(s); len(r) > 30 {
		return string(r[:30]) + "…"
	}
	return s
}

// mind is what to mind with a pair before it is glazed.
func mind(w tiles.Wall, p tiles.Pair) []string {
	if p.First == "" {
		return nil
	}
	skipped, careful := run.Verdicts(w)
	return logbook.Mind(w, p, skipped(p), careful(p))
}

// choice is a thing to choose from a list.
type choice struct {
	Value, Text string
	Chosen      bool
}

func glazeChoices(w tiles.Wall, chosen string) []choice {
	var out []choice
	for _, g := range w.Glazes {
		if !g.Retired {
			out = append(out, choice{g.Code, g.Name + " (" + g.Code + ")", tiles.SameCode(g.Code, chosen)})
		}
	}
	return out
}

func wayChoices(w tiles.Wall, chosen string) []choice {
	words := []string{"dipped", "poured"}
	if w.Dip.Brush {
		words = append(words, "brushed")
	}
	if chosen != "" && !slices.Contains(words, chosen) {
		words = append(words, chosen)
	}
	var out []choice
	for _, word := range words {
		out = append(out, choice{word, word, word == chosen || chosen == "" && word == "dipped"})
	}
	return out
}
