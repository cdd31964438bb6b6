package content

import (
	"bytes"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/table"
)

// Recoded is a glaze list or a wall.yaml with a glaze's new code in the places
// where the old one stood; everything else of it is as it was typed, remarks and
// spaces too. It is the very text where the old code does not stand in it.
// Errors are tiles.Problems: a file that cannot be read is not rewritten.
func Recoded(file string, text []byte, old, now string) ([]byte, error) {
	if strings.HasSuffix(file, ".csv") {
		return recodedCSV(file, text, old, now)
	}
	return recodedYAML(file, text, old, now)
}

func recodedCSV(file string, text []byte, old, now string) ([]byte, error) {
	t, err := table.Read(file, bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	at, changed := t.Column("code"), false
	for i, r := range t.Rows {
		if !r.Remark && at >= 0 && tiles.SameCode(r.Cell(at), old) {
			t.Rows[i].Set(at, now)
			changed = true
		}
	}
	if !changed {
		return text, nil
	}
	var out bytes.Buffer
	err = t.Write(&out)
	return out.Bytes(), err
}

// codeKeys are the keys under which a glaze's code stands, in either file: by
// itself or as a list.
var codeKeys = []string{"code", "first", "second", "either", "controls", "prefer"}

func recodedYAML(file string, text []byte, old, now string) ([]byte, error) {
	doc, ps := parseYAML(file, text)
	if len(ps) > 0 {
		return nil, ps
	}
	if doc == nil {
		return text, nil
	}
	lines := bytes.SplitAfter(text, []byte("\n"))
	found := codesIn(doc, "", old)
	// From the end, so that a place in a line stays where it is.
	for _, n := range slices.Backward(found) {
		line := lines[n.Line-1]
		at := columnAt(line, n.Column)
		if at < 0 {
			continue
		}
		if i := bytes.Index(line[at:], []byte(n.Value)); i >= 0 && i <= 1 { // after a quotation mark, or at once
			at += i
			lines[n.Line-1] = slices.Concat(line[:at], []byte(now), line[at+len(n.Value):])
		}
	}
	return bytes.Join(lines, nil), nil
}

// codesIn lists the scalars that name the glaze, in the order of the text.
func codesIn(n *yaml.Node, key, old string) []*yaml.Node {
	var out []*yaml.Node
	switch n.Kind {
	case yaml.ScalarNode:
		if slices.Contains(codeKeys, key) && tiles.SameCode(n.Value, old) {
			out = append(out, n)
		}
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			out = append(out, codesIn(n.Content[i+1], n.Content[i].Value, old)...)
		}
	default:
		for _, c := range n.Content {
			out = append(out, codesIn(c, key, old)...)
		}
	}
	return out
}

// columnAt is the byte at which the column begins, which the library counts in
// letters from 1; -1 past the line's end.
func columnAt(line []byte, column int) int {
	at := 0
	for i := range string(line) {
		if at++; at == column {
			return i
		}
	}
	return -1
}

// CheckCode says what is wrong with a code that a glaze is to have; nil = nothing.
func CheckCode(code string) error {
	if isCode(code) {
		return nil
	}
	return tiles.Problem{File: GlazesCSV, What: "the code " + strconv.Quote(code) + " is not 1 to 4 letters or digits", Do: "choose a shorter one; it is written by hand on clay"}
}
