package content

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/table"
)

// decodeYAML decodes one YAML document into a struct of ours, refusing keys it
// does not have, and returns the document for its line numbers.
func decodeYAML(file string, text []byte, into any) (*yaml.Node, tiles.Problems) {
	doc, ps := parseYAML(file, text)
	if len(ps) > 0 || doc == nil {
		return doc, ps
	}
	d := yaml.NewDecoder(bytes.NewReader(text))
	d.KnownFields(true)
	if err := d.Decode(into); err != nil && !errors.Is(err, io.EOF) {
		return nil, yamlProblems(file, text, err, into)
	}
	return doc, nil
}

// parseYAML parses the text without expanding anything; nil is an empty
// document. Anchors and aliases are refused: nobody needs them in a wall, and
// a few lines of them can ask for all the memory there is.
func parseYAML(file string, text []byte) (*yaml.Node, tiles.Problems) {
	if line, deep := tooDeep(text); deep {
		return nil, problem(file, line, "is nested too deeply", "check that it is the file you mean")
	}
	var doc, next yaml.Node
	d := yaml.NewDecoder(bytes.NewReader(text))
	if err := d.Decode(&doc); err != nil && !errors.Is(err, io.EOF) {
		return nil, yamlProblems(file, text, err, nil)
	}
	if len(doc.Content) == 0 {
		return nil, nil
	}
	if n := findAlias(&doc); n != nil {
		return nil, problem(file, n.Line, anchored, quoteIt)
	}
	if n := findOddKey(&doc); n != nil {
		return nil, problem(file, n.Line, "has a list, a block or << where a setting's name should stand", "write a word there, and put a text that looks like this in quotation marks")
	}
	if d.Decode(&next) == nil {
		return nil, problem(file, next.Line, "begins the file a second time, after a line of hyphens or stops", "keep what is right above that line, and take the rest out")
	}
	return doc.Content[0], nil
}

// endless says of every value that YAML takes for no number or an infinite one
// what is wrong: no sum over it comes out.
func endless(file string, n *yaml.Node) tiles.Problems {
	if n == nil {
		return nil
	}
	var x float64
	if n.Kind == yaml.ScalarNode && n.ShortTag() == "!!float" && n.Decode(&x) == nil && (math.IsNaN(x) || math.IsInf(x, 0)) {
		return problem(file, n.Line, fmt.Sprintf("%q is no number to reckon with", n.Value),
			"write a number, like 12 or 0.5; put a text that looks like this in quotation marks")
	}
	var ps tiles.Problems
	for _, c := range n.Content {
		ps = append(ps, endless(file, c)...)
	}
	return ps
}

// maxDepth is more than any wall.yaml needs and little enough for the parser.
const maxDepth = 60

// tooDeep looks for a line that opens more brackets than any wall needs.
func tooDeep(text []byte) (line int, deep bool) {
	for i, l := range bytes.Split(text, []byte("\n")) {
		if bytes.Count(l, []byte("[")) > maxDepth || bytes.Count(l, []byte("{")) > maxDepth || bytes.Count(l, []byte("- -")) > maxDepth {
			return i + 1, true
		}
	}
	return 0, false
}

func findAlias(n *yaml.Node) *yaml.Node {
	if n.Kind == yaml.AliasNode || n.Anchor != "" {
		return n
	}
	for _, c := range n.Content {
		if found := findAlias(c); found != nil {
			return found
		}
	}
	return nil
}

// findOddKey finds a key that is no word. The library's decoder panics on some.
func findOddKey(n *yaml.Node) *yaml.Node {
	for i, c := range n.Content {
		if n.Kind == yaml.MappingNode && i%2 == 0 && (c.Kind != yaml.ScalarNode || c.ShortTag() == "!!merge") {
			return c
		}
		if found := findOddKey(c); found != nil {
			return found
		}
	}
	return nil
}

// The library says its errors as text only.
var (
	yamlAt      = regexp.MustCompile(`^(?:yaml: )?line (\d+): (?s:(.*))$`)
	yamlUnknown = regexp.MustCompile(`^field (?s:(.*)) not found in type (\S+)$`)
	yamlKind    = regexp.MustCompile("^cannot unmarshal (\\S+)(?: `(?s:(.*))`)? into (\\S+)$")
	// The library's parser, unlike its scanner, counts lines from 0.
	countsFromZero = regexp.MustCompile(`^did not find expected (key|node content|'|<)`)
	yamlTwice      = regexp.MustCompile(`^mapping key "(.*)" already defined at line (\d+)$`)
)

// yamlProblems says the library's errors in plain words.
func yamlProblems(file string, written []byte, err error, into any) tiles.Problems {
	var several *yaml.TypeError
	texts := []string{err.Error()}
	if errors.As(err, &several) {
		texts = several.Errors
	}
	var ps tiles.Problems
	for _, text := range texts {
		line, rest := 0, strings.TrimPrefix(text, "yaml: ")
		if m := yamlAt.FindStringSubmatch(text); m != nil {
			line, _ = strconv.Atoi(m[1])
			rest = m[2]
			if countsFromZero.MatchString(rest) {
				line++
			}
		}
		p, ok := unfitting(file, line, rest, into)
		if !ok {
			p = misspelled(file, written, line, rest)
		}
		ps = append(ps, p)
	}
	return ps
}

// unfitting says what is wrong with a setting that YAML can read and the wall
// cannot use.
func unfitting(file string, line int, text string, into any) (p tiles.Problem, ok bool) {
	p = tiles.Problem{File: file, Line: line}
	if m := yamlUnknown.FindStringSubmatch(text); m != nil {
		p.What, p.Do = "there is no setting called "+tidy(m[1]), "use one of "+strings.Join(keysOf(into, m[2]), ", ")
		return p, true
	}
	if m := yamlTwice.FindStringSubmatch(text); m != nil {
		p.What, p.Do = fmt.Sprintf("%s is set a second time; line %s sets it first", tidy(m[1]), m[2]), "remove one of the two"
		return p, true
	}
	m := yamlKind.FindStringSubmatch(text)
	if m == nil {
		return p, false
	}
	kind, do := kindOf(m[3])
	p.What, p.Do = shown(m[1], m[2])+" should be "+kind, do
	if mm, isLength := length(m[2]); isLength && strings.HasPrefix(m[3], "float") {
		p.What, p.Do = strconv.Quote(m[2])+" should be a number of millimetres, without a unit", "write "+mm
	} else if x, err := table.Number(m[2]); err == nil && strings.HasPrefix(m[3], "float") {
		p.Do = "write " + strconv.FormatFloat(x, 'g', -1, 64)
	}
	return p, true
}

func shown(tag, value string) string {
	switch {
	case value != "":
		return strconv.Quote(value)
	case tag == "!!map":
		return "the block of settings here"
	case tag == "!!seq":
		return "the list here"
	}
	return "the value here"
}

// kindOf says what a value of a Go type is to a person, and how it is written.
func kindOf(goType string) (kind, do string) {
	switch {
	case strings.HasPrefix(goType, "float"):
		return "a number, like 12 or 0.5", ""
	case strings.HasPrefix(goType, "int"), strings.HasPrefix(goType, "uint"):
		return "a whole number", ""
	case goType == "bool":
		return "true or false", ""
	case strings.HasPrefix(goType, "[]"):
		return "a list", "write each entry on a line of its own below the name, after a dash and a space"
	case strings.HasPrefix(goType, "map"), strings.HasPrefix(goType, "tiles."), strings.HasPrefix(goType, "content."):
		return "a block of settings", "write each of them on a line of its own below the name, indented"
	}
	return "a text", "write it after the colon, on the line of its name"
}
