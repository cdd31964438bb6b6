package content

import (
	"bytes"
	"fmt"
	"regexp"

	"github.com/twodip/twodip/tiles"
)

// Bounds on a page's text, over which reading Markdown takes a time that grows
// with the square of the length: a megabyte of "> " took minutes.
const (
	maxQuotes = 60     // markers of quotations and lists that one line begins with
	maxMarks  = 2_000  // signs before the next blank line of the kinds that come in pairs
	maxCells  = 20_000 // of one table: short rows are filled up to the width of its head
)

// delimiters is the line below a table's head (GitHub Flavored Markdown, 4.10).
var delimiters = regexp.MustCompile(`^[ \t>|:+*-]*\|[ \t|:-]*$`)

// tangle finds the first line that no person writes.
func tangle(file string, text []byte) tiles.Problems {
	marks, line, columns, rows := 0, 0, 0, 0
	for l := range bytes.Lines(text) {
		line++
		if markers(l) > maxQuotes {
			return problem(file, line, "is nested too deeply", "check that it is the file you mean")
		}
		for _, sign := range "[*_~`<" {
			marks += bytes.Count(l, []byte(string(sign)))
		}
		if bytes.Contains(l, []byte("-")) && delimiters.Match(bytes.TrimRight(l, "\r\n")) {
			columns = max(columns, bytes.Count(l, []byte("|")))
		}
		if rows++; columns*rows > maxCells {
			return problem(file, line, fmt.Sprintf("the table has more than %d cells", maxCells), "make several of it, or show it as a picture")
		}
		if len(bytes.TrimSpace(l)) == 0 {
			marks, columns, rows = 0, 0, 0
		}
		if marks > maxMarks {
			return problem(file, line, fmt.Sprintf("has more than %d of the signs [ * _ ~ ` < before the next blank line", maxMarks),
				"put blank lines between its parts")
		}
	}
	return nil
}

// markers counts what a line begins with that opens a quotation or an entry of
// a list: >, a hyphen, a star, a plus, or a number with a stop or a bracket,
// each but > with a space after it.
func markers(line []byte) int {
	count := 0
	for i, b := range line {
		spaced := i+1 < len(line) && (line[i+1] == ' ' || line[i+1] == '\t')
		switch {
		case b == '>':
			count++
		case bytes.IndexByte([]byte("-*+.)"), b) >= 0 && spaced:
			count++
		case bytes.IndexByte([]byte("-*+.) \t0123456789"), b) < 0:
			return count
		}
	}
	return count
}
