package sheet

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/bidi"
)

// leftToRight is the mark that tiles.Apart sets around a word from the right:
// it orders what stands beside it and is not drawn.
const leftToRight = '\u200e'

// piece is a stretch of a line that is drawn in one go, its letters as they
// stand from left to right.
type piece struct {
	text  string
	apart bool // stands beside a word from the right that is set apart from it
}

// pieces cuts a line where a word from the right is set apart (tiles.Apart):
// each stretch is ordered by itself, and they follow each other from the left.
func pieces(s string) []piece {
	parts := strings.Split(s, string(leftToRight))
	all := make([]piece, 0, len(parts))
	for _, part := range parts {
		if part != "" {
			all = append(all, piece{visual(part), len(parts) > 1 && !hasRightToLeft(part)})
		}
	}
	return all
}

// visual turns a line from the order it is read in to the order its letters
// stand on paper, left to right: gofpdf places letters as they come. It does
// what a name needs of UAX #9: runs of one direction, numbers inside text that
// reads from the right, a line that begins on the right.
func visual(s string) string {
	if !hasRightToLeft(s) {
		return s
	}
	var p bidi.Paragraph
	if _, err := p.SetString(s); err != nil {
		return s
	}
	order, err := p.Order()
	if err != nil {
		return s
	}
	runs := make([]bidiRun, order.NumRuns())
	for i := range runs {
		run := order.Run(i)
		runs[i] = bidiRun{run.String(), run.Direction() == bidi.RightToLeft}
	}
	var b strings.Builder
	for _, r := range arranged(runs, order.Direction() == bidi.RightToLeft || firstIsRight(s)) {
		if r.right {
			r.text = bidi.ReverseString(r.text)
		}
		b.WriteString(r.text)
	}
	return b.String()
}

// bidiRun is a stretch of text of one direction.
type bidiRun struct {
	text  string
	right bool // reads from the right
}

// arranged puts runs in the order they stand from left to right. In a line
// that begins on the right that is their reverse; otherwise only numbers
// between runs that read from the right change places with them.
func arranged(runs []bidiRun, fromRight bool) []bidiRun {
	if fromRight {
		slices.Reverse(runs)
		return runs
	}
	for from := 0; from < len(runs); from++ {
		if !runs[from].right {
			continue
		}
		to := from + 1
		for to < len(runs) && (runs[to].right || isNumber(runs[to].text)) {
			to++
		}
		slices.Reverse(runs[from:to])
		from = to
	}
	return runs
}

func isNumber(s string) bool {
	return !strings.ContainsFunc(s, func(r rune) bool { return unicode.IsLetter(r) })
}

// firstIsRight says whether the first letter with a direction reads from the
// right.
func firstIsRight(s string) bool {
	for _, r := range s {
		switch p, _ := bidi.LookupRune(r); p.Class() {
		case bidi.R, bidi.AL:
			return true
		case bidi.L:
			return false
		}
	}
	return false
}

func hasRightToLeft(s string) bool {
	for _, r := range s {
		if r < 0x0590 {
			continue
		}
		switch p, _ := bidi.LookupRune(r); p.Class() {
		case bidi.R, bidi.AL:
			return true
		}
	}
	return false
}
