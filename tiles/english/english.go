// Package english says counts, lists and sentences the one way the whole
// program says them: on the terminal, on paper and on the site.
package english

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/dustin/go-humanize/english"
)

// Count says how many: "1 tile", "144 tiles".
func Count(n int, one, more string) string {
	return strconv.Itoa(n) + " " + Number(n, one, more)
}

// Number is the form of a word that goes with so many: "is" or "are".
func Number(n int, one, more string) string { return english.PluralWord(n, one, more) }

// And joins what is named: "A", "A and B", "A, B and C".
func And(names []string) string { return english.WordSeries(names, "and") }

// AndOf is And for names that have commas in them: "A; B and C".
func AndOf(names []string) string {
	if len(names) < 3 {
		return And(names)
	}
	last := len(names) - 1
	return strings.Join(names[:last], "; ") + " and " + names[last]
}

// First names the first of a list and counts the rest: "A, B and 7 more". One
// that is left over is named rather than counted.
func First(shown int, names []string) []string {
	if left := len(names) - shown; left > 1 {
		return append(names[:shown:shown], fmt.Sprintf("%d more", left))
	}
	return names
}

// Capital gives the first letter, whatever its alphabet, its capital:
// "éclatement" is headed "Éclatement".
func Capital(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	if r == utf8.RuneError {
		return s
	}
	return string(unicode.ToTitle(r)) + s[size:]
}

// Sentence makes a sentence of a phrase: a capital first, a stop last.
func Sentence(s string) string {
	s = Capital(strings.TrimSpace(s))
	if last, _ := utf8.DecodeLastRuneInString(s); s == "" || strings.ContainsRune(".!?…", last) {
		return s
	}
	return s + "."
}

// Hours says minutes as people do: "40 min", "3.5 h".
func Hours(minutes float64) string {
	if minutes < 90 {
		return fmt.Sprintf("%.0f min", minutes)
	}
	return fmt.Sprintf("%.1f h", minutes/60)
}
