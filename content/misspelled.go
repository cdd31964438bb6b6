package content

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// misspelled says in plain words what the library's parser could not read, and
// on which line it is: the parser names the line where it gave up, which may be
// the one after. It is false where there is nothing plainer to say.
func misspelled(file string, text []byte, line int, says string) (tiles.Problem, bool) {
	p := tiles.Problem{File: file, Line: max(line, 1)}
	lines := strings.Split(strings.ReplaceAll(string(text), "\r\n", "\n"), "\n")
	at := func(n int) string {
		if n < 1 || n > len(lines) {
			return ""
		}
		return lines[n-1]
	}
	here, above := at(p.Line), at(p.Line-1)
	switch {
	case strings.HasPrefix(strings.TrimLeft(here, " "), "\t"):
		p.What, p.Do = "begins with a tab", "indent it with spaces"
	case strings.HasPrefix(says, "could not find expected ':'"):
		if !noColon(here) && noColon(above) {
			p.Line, here = p.Line-1, above
		}
		p.What, p.Do = colonMissing(here)
	case !strings.HasPrefix(says, "mapping values are not allowed"):
		return p, false
	case noColon(above):
		p.Line--
		p.What, p.Do = colonMissing(above)
	case strings.Count(here, ": ") > 1:
		p.What, p.Do = "holds a second colon", "put all that stands after the first one in quotation marks"
	default:
		p.What, p.Do = "is indented further than the line above it", "begin it below the first letter of that line, or end that line with its colon"
	}
	return p, true
}

// noColon says of a line that it should hold a setting and has no colon with a
// space or the line's end after it.
func noColon(line string) bool {
	line, _, _ = strings.Cut(line, " #")
	line = strings.TrimSpace(line)
	return line != "" && !strings.HasPrefix(line, "#") && !strings.HasPrefix(line, "-") &&
		!strings.Contains(line, ": ") && !strings.HasSuffix(line, ":")
}

func colonMissing(line string) (what, do string) {
	return fmt.Sprintf("%q has no colon with a space after it", strings.TrimSpace(line)), "write a setting as its name, a colon, a space and its value, like paper: a4"
}

var lengthWritten = regexp.MustCompile(`(?i)^\s*(\d+(?:[.,]\d+)?)\s*(mm|cm|in|inch|inches|"|″|”)\.?\s*$`)

// length is a length that was written with its unit, in millimetres.
func length(written string) (mm string, ok bool) {
	m := lengthWritten.FindStringSubmatch(written)
	if m == nil {
		return "", false
	}
	x, err := strconv.ParseFloat(strings.ReplaceAll(m[1], ",", "."), 64)
	switch strings.ToLower(m[2]) {
	case "mm":
	case "cm":
		x *= 10
	default:
		x *= 25.4 // the international inch, since 1959
	}
	return strconv.FormatFloat(x, 'g', 6, 64), err == nil
}
