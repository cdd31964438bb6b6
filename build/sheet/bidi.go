package sheet

import (
	"strings"

	"golang.org/x/text/unicode/bidi"
)

// visual turns a line from the order it is read in to the order its letters
// stand on paper, left to right (UAX #9): gofpdf places letters as they come.
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
	runs := make([]string, order.NumRuns())
	for i := range runs {
		run := order.Run(i)
		runs[i] = run.String()
		if run.Direction() == bidi.RightToLeft {
			runs[i] = bidi.ReverseString(runs[i])
		}
	}
	return strings.Join(runs, "")
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
