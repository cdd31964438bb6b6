package content

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// A slip is a way of going wrong in YAML: by what the library's parser says of
// it, or by the line's own looks.
type slip struct {
	says     *regexp.Regexp         // of the parser's words; nil = whatever it says
	looks    func(line string) bool // of the line; nil = whatever it looks like
	what, do string
}

const (
	quoteIt  = "put the whole text in quotation marks"
	anchored = "has a text that begins with & or *, which mean something else here"
)

var (
	opensQuotation = regexp.MustCompile(`[:,\[{-] *("[^"]*|'[^']*)$`)
	endsInside     = regexp.MustCompile(`end of stream|document indicator`)
)

var unknownAnchor = regexp.MustCompile(`^unknown anchor '(.*)' referenced$`)

var slips = []slip{
	{nil, regexp.MustCompile(`^ *\t`).MatchString, "begins with a tab", "indent it with spaces"},
	{nil, regexp.MustCompile(`^ *-[^-\s\d]`).MatchString, "has a dash without a space after it", "put a space after the dash"},
	{nil, regexp.MustCompile(`: +"[^"]*"[^\s,\]}#]`).MatchString, "goes on after a closing quotation mark", `put a text that holds " between ' marks`},
	{nil, regexp.MustCompile(`: +'[^']*'[^'\s,\]}#]`).MatchString, "goes on after a closing quotation mark", `put a text that holds ' between " marks`},
	{nil, closesTooMany, "closes a bracket that was not opened", "take that bracket out"},
	{regexp.MustCompile(`escape c|hexdecimal|surrogate`), nil, `has a \ between " marks, where it means something else`, "put the text between ' marks"},
	{regexp.MustCompile(`expected ',' or`), nil, "opens a bracket that is not closed, or leaves out a comma", "close it on the same line, and put commas between the entries"},
	{regexp.MustCompile(`cannot start any token|directive|tag|alphabetic`), nil, "has a text that begins with a sign which means something else here", quoteIt},
	{regexp.MustCompile(`'-' indicator`), nil, "stands in a list and has no dash", "begin it with a dash and a space"},
	{regexp.MustCompile(`sequence entries`), nil, "has a dash where no list can begin", "begin the list on the line below its name"},
	{regexp.MustCompile(`control character`), nil, "holds a character that cannot be seen", "type the line again"},
	{regexp.MustCompile(`expected key`), regexp.MustCompile(`^ +- `).MatchString, "has a dash where no list can begin", "begin the list on the line below its name"},
}

// closesTooMany says that a line closes more brackets than it opens.
func closesTooMany(line string) bool {
	return strings.Count(line, "]") > strings.Count(line, "[") || strings.Count(line, "}") > strings.Count(line, "{")
}

// misspelled says in plain words what the library's parser could not read, and
// on which line it is: the parser names the line where it gave up, which may be
// the one after, and none where it is the first.
func misspelled(file string, text []byte, line int, says string) tiles.Problem {
	p := tiles.Problem{File: file, Line: max(line, 1)}
	lines := strings.Split(strings.ReplaceAll(string(text), "\r\n", "\n"), "\n")
	at := func(n int) string {
		if n < 1 || n > len(lines) {
			return ""
		}
		return lines[n-1]
	}
	if m := unknownAnchor.FindStringSubmatch(says); m != nil { // the parser does not say where
		p.Line = 1 + slices.IndexFunc(lines, func(line string) bool { return strings.Contains(line, "*"+m[1]) })
		p.What, p.Do = anchored, quoteIt
		return p
	}
	if opened := slices.IndexFunc(lines, opensQuotation.MatchString); opened >= 0 && endsInside.MatchString(says) {
		p.Line = 1 + opened // the parser goes on to the end
		p.What, p.Do = "opens a quotation mark that is never closed", "close it at the end of the text"
		return p
	}
	here, above := at(p.Line), at(p.Line-1)
	for _, s := range slips {
		if (s.says == nil || s.says.MatchString(says)) && (s.looks == nil || s.looks(here)) {
			p.What, p.Do = s.what, s.do
			return p
		}
	}
	switch {
	case strings.HasPrefix(says, "could not find expected ':'"):
		if !noColon(here) && noColon(above) {
			p.Line, here = p.Line-1, above
		}
		p.What, p.Do = colonMissing(here)
	case strings.Contains(says, "expected key") && indentOf(here) < indentOf(above):
		p.What, p.Do = "begins further left than the line above it and in line with no other", "begin it below the first letter of the settings it belongs to"
	case !strings.HasPrefix(says, "mapping values are not allowed"):
		p.What, p.Do = "cannot be read from here on", "look at the colons, brackets and quotation marks of this line and the one above, and at the spaces they begin with"
	case noColon(above):
		p.Line--
		p.What, p.Do = colonMissing(above)
	case strings.Count(here, ": ") > 1:
		p.What, p.Do = "holds a second colon", "put all that stands after the first one in quotation marks"
	default:
		p.What, p.Do = "is indented further than the line above it", "begin it below the first letter of that line, or end that line with its colon"
	}
	return p
}

func indentOf(line string) int { return len(line) - len(strings.TrimLeft(line, " ")) }

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
