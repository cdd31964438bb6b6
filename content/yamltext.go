package content

import (
	"bytes"
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// yamlText is the text of a YAML file beside its nodes, to be changed in places
// while the rest of it stays as it was typed. Changes are gathered, then made.
type yamlText struct {
	text    []byte
	lines   []int // where each line begins
	splices []splice
	lost    bool // a place could not be found in the text
}

// splice is one change. Of several lines that go to one place the deeper ones
// come first: they belong to what stands there.
type splice struct {
	from, to int
	by       string
	deep     int
}

func newYAMLText(text []byte) *yamlText {
	y := &yamlText{text: text, lines: []int{0}}
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRune(text[i:])
		i += size
		switch {
		case r == '\r' && i < len(text) && text[i] == '\n':
		case r == '\n', r == '\r', r == 0x85, r == 0x2028, r == 0x2029: // YAML 1.1, 5.4: line breaks
			y.lines = append(y.lines, i)
		}
	}
	return y
}

// with is the text with all changes made; ok = every place was found, and no
// two changes are of one place.
func (y *yamlText) with() (text []byte, ok bool) {
	if y.lost {
		return nil, false
	}
	slices.SortStableFunc(y.splices, func(a, b splice) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(b.deep, a.deep)) })
	var out bytes.Buffer
	at := 0
	for _, s := range y.splices {
		if s.from < at || s.to < s.from || s.to > len(y.text) {
			return nil, false
		}
		out.Write(y.text[at:s.from])
		out.WriteString(s.by)
		at = s.to
	}
	out.Write(y.text[at:])
	return out.Bytes(), true
}

func (y *yamlText) put(from, to int, by string) {
	y.splices = append(y.splices, splice{from, to, by, 1 << 20})
}

// at is where a node begins. The library counts columns in letters from 1.
func (y *yamlText) at(n *yaml.Node) int {
	if n.Line < 1 || n.Line > len(y.lines) {
		y.lost = true
		return 0
	}
	at := y.lines[n.Line-1]
	for range n.Column - 1 {
		_, size := utf8.DecodeRune(y.text[at:])
		at += size
	}
	return at
}

// end is where a node ends: behind its last letter, quotation mark or bracket.
func (y *yamlText) end(n *yaml.Node) int {
	switch {
	case n.Kind == yaml.ScalarNode:
		return y.scalarEnd(n)
	case n.Style&yaml.FlowStyle != 0:
		at := y.at(n) + 1
		if len(n.Content) > 0 {
			at = y.lastEnd(n)
		}
		return y.past(at, "}]")
	case len(n.Content) == 0:
		return y.at(n)
	}
	return y.lastEnd(n)
}

// lastEnd is where the last thing in a node ends.
func (y *yamlText) lastEnd(n *yaml.Node) int {
	last := n.Content[len(n.Content)-1]
	if n.Kind == yaml.MappingNode && unsaid(last) {
		return y.past(y.end(n.Content[len(n.Content)-2]), ":")
	}
	return y.end(last)
}

// unsaid says that nothing stands behind a key's colon.
func unsaid(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Tag == "!!null" && n.Value == ""
}

// past is behind the next of the signs, with only spaces, commas and remarks
// before it.
func (y *yamlText) past(at int, signs string) int {
	for at < len(y.text) {
		switch b := y.text[at]; {
		case strings.IndexByte(signs, b) >= 0:
			return at + 1
		case b == '#':
			at = y.lineEnd(at)
		case b == ' ' || b == '\t' || b == '\r' || b == '\n' || b == ',':
			at++
		default:
			y.lost = true
			return at
		}
	}
	y.lost = true
	return at
}

// lineEnd is where the next line begins.
func (y *yamlText) lineEnd(at int) int {
	i, _ := slices.BinarySearch(y.lines, at+1)
	if i < len(y.lines) {
		return y.lines[i]
	}
	return len(y.text)
}

func (y *yamlText) scalarEnd(n *yaml.Node) int {
	at := y.at(n)
	switch {
	case at >= len(y.text) && n.Value != "":
		y.lost = true
		return at
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return y.blockEnd(at)
	case n.Style&yaml.DoubleQuotedStyle != 0:
		return y.quoteEnd(at, '"')
	case n.Style&yaml.SingleQuotedStyle != 0:
		return y.quoteEnd(at, '\'')
	}
	return y.plainEnd(at, n.Value)
}

// plainEnd follows a value without quotation marks, in which a line end may
// stand where the value has a space.
func (y *yamlText) plainEnd(at int, value string) int {
	for _, r := range value {
		if r == ' ' || r == '\n' {
			for at < len(y.text) && unicode.IsSpace(rune(y.text[at])) {
				at++
			}
			continue
		}
		got, size := utf8.DecodeRune(y.text[min(at, len(y.text)):])
		if got != r {
			y.lost = true
			return at
		}
		at += size
	}
	return at
}

// quoteEnd is behind the closing quotation mark: in single ones two stand for
// one, in double ones a backslash takes the next sign.
func (y *yamlText) quoteEnd(at int, mark byte) int {
	if at >= len(y.text) || y.text[at] != mark {
		y.lost = true
		return at
	}
	for i := at + 1; i < len(y.text); i++ {
		switch {
		case mark == '"' && y.text[i] == '\\':
			i++
		case y.text[i] != mark:
		case mark == '\'' && i+1 < len(y.text) && y.text[i+1] == mark:
			i++
		default:
			return i + 1
		}
	}
	y.lost = true
	return at
}

// blockEnd is the end of a text below | or >: as far as it is indented.
func (y *yamlText) blockEnd(at int) int {
	end, indent := y.lineEnd(at), -1
	for next := end; next < len(y.text); {
		line := y.text[next:y.lineEnd(next)]
		deep := len(line) - len(bytes.TrimLeft(line, " "))
		blank := len(bytes.TrimSpace(line)) == 0
		if indent < 0 && !blank {
			indent = deep
		}
		if !blank && (deep < indent || indent == 0) {
			break
		}
		next = y.lineEnd(next)
		if !blank {
			end = next
		}
	}
	return len(bytes.TrimRight(y.text[:end], "\r\n"))
}

// indentOf is the spaces before a node on its line; ok = nothing else is.
func (y *yamlText) indentOf(n *yaml.Node) (string, bool) {
	at := y.at(n)
	if y.lost {
		return "", false
	}
	before := string(y.text[y.lines[n.Line-1]:at])
	return before, strings.Trim(before, " ") == ""
}

// newline is the line end that the file has.
func (y *yamlText) newline() string {
	if bytes.Contains(y.text, []byte("\r\n")) {
		return "\r\n"
	}
	return "\n"
}

// replace writes another value in place of a node. A remark behind it stays in
// its column where there is room.
func (y *yamlText) replace(n *yaml.Node, by string) {
	from, to := y.at(n), y.end(n)
	if y.lost {
		return
	}
	rest := y.text[to:y.lineEnd(to)]
	spaces := len(rest) - len(bytes.TrimLeft(rest, " "))
	wider := utf8.RuneCountInString(by) - utf8.RuneCount(y.text[from:to])
	if spaces >= 2 && spaces < len(rest) && rest[spaces] == '#' {
		by += strings.Repeat(" ", max(1, spaces-wider))
		to += spaces
	}
	y.put(from, to, by)
}

// below inserts a line behind the one in which a place lies.
func (y *yamlText) below(at int, line string) {
	rest := strings.TrimLeft(line, " ")
	deep := 2 * (len(line) - len(rest))
	if strings.HasPrefix(rest, "-") {
		deep++ // an entry may be indented as far as the key of its list
	}
	end := y.lineEnd(at)
	if end == len(y.text) && end > 0 && y.text[end-1] != '\n' {
		line = y.newline() + line
	} else {
		line += y.newline()
	}
	y.splices = append(y.splices, splice{end, end, line, deep})
}
