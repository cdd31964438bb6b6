package content

import (
	"bytes"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"
)

// listItems are the glazes of a list in YAML, right or wrong.
func listItems(text []byte) ([]*yaml.Node, error) {
	doc, ps := parseYAML(GlazesYAML, text)
	if len(ps) > 0 {
		return nil, ps
	}
	items, ok := glazeItems(doc)
	if !ok {
		return nil, problem(GlazesYAML, doc.Line, "is not a list of glazes", "begin each glaze with a dash:  - code: A")
	}
	return items, nil
}

// errHandmade is said of a list that is typed in a way that only its owner can
// change.
var errHandmade = problem(GlazesYAML, 0, "is typed in a way that cannot be changed here: nothing is written", "change it in the file itself")

// editedItems is EditedList of a list in YAML: first the values that changed,
// then the glazes in their new order.
func editedItems(raw []byte, rows []ListRow) ([]byte, error) {
	text := bytes.TrimPrefix(raw, []byte("\ufeff"))
	mark := raw[:len(raw)-len(text)]
	items, err := listItems(text)
	if err != nil {
		return nil, err
	}
	y := newYAMLText(text)
	for _, r := range rows {
		if r.Of < 0 {
			continue
		}
		for _, name := range namesIn(r.Cells) {
			y.set(items[r.Of], name, y.cell(items[r.Of], name, r.Cells[name]))
		}
	}
	text, ok := y.with()
	if !ok {
		return nil, errHandmade
	}
	if !inOrder(rows, len(items)) {
		if text, err = reordered(text, rows); err != nil {
			return nil, err
		}
	}
	return append(slices.Clone(mark), text...), nil
}

// cell is a cell's value as YAML: cautions and traits are lists.
func (y *yamlText) cell(item *yaml.Node, name, value string) string {
	list := name == "traits" || name == "cautions"
	if item != nil {
		for i := 0; i+1 < len(item.Content); i += 2 {
			list = list || item.Content[i].Value == name && item.Content[i+1].Kind == yaml.SequenceNode
		}
	}
	if list {
		return listYAML(tidyAll(split(value, ";|\n")))
	}
	return plainYAML(value)
}

// inOrder says that the rows are those of the file, all of them, as they stand.
func inOrder(rows []ListRow, count int) bool {
	for i, r := range rows {
		if r.Of != i {
			return false
		}
	}
	return len(rows) == count
}

// reordered takes the list apart between its lines and puts it together as the
// rows have it. What stands above a glaze goes with it; what stands above the
// first is the list's own.
func reordered(text []byte, rows []ListRow) ([]byte, error) {
	items, err := listItems(text)
	if err != nil {
		return nil, err
	}
	if len(items) == 0 {
		return joined(newYAMLText(text), string(text), "", "", nil, nil, rows), nil
	}
	y := newYAMLText(text)
	begins := y.lines[items[0].Line-1]
	head, at, indent := string(text[:begins]), begins, ""
	var leads, bodies []string
	for i, n := range items {
		from := y.lines[n.Line-1]
		before, dash := strings.CutSuffix(strings.TrimRight(string(text[from:y.at(n)]), " "), "-")
		end := y.lineEnd(max(y.end(n)-1, 0))
		if !dash || strings.Trim(before, " ") != "" || y.lost || from < at {
			return nil, errHandmade
		}
		if i == 0 {
			indent = before
		}
		leads, bodies = append(leads, string(text[at:from])), append(bodies, string(text[from:end]))
		at = end
	}
	return joined(y, head, string(text[at:]), indent, leads, bodies, rows), nil
}

func joined(y *yamlText, head, tail, indent string, leads, bodies []string, rows []ListRow) []byte {
	var out strings.Builder
	next := func(s string) {
		if have := out.String(); s != "" && have != "" && !strings.HasSuffix(have, "\n") {
			out.WriteString(y.newline())
		}
		out.WriteString(s)
	}
	next(head)
	stays := map[int]bool{}
	for _, r := range rows {
		stays[r.Of] = true
	}
	left := ""
	for i := range leads { // what stood above a glaze that is gone stays
		left += leads[i]
		leads[i] = ""
		if stays[i] {
			leads[i], left = left, ""
		}
	}
	for _, r := range rows {
		if r.Of < 0 {
			next(y.newItem(indent, r))
			continue
		}
		next(leads[r.Of])
		next(bodies[r.Of])
	}
	next(left + tail)
	return []byte(out.String())
}

// newItem is a glaze that was typed anew.
func (y *yamlText) newItem(indent string, r ListRow) string {
	var out strings.Builder
	before := indent + "- "
	for _, name := range namesIn(r.Cells) {
		out.WriteString(before + plainYAML(name) + ": " + y.cell(nil, name, r.Cells[name]) + y.newline())
		before = indent + "  "
	}
	return out.String()
}
