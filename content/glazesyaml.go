package content

import (
	"fmt"

	"gopkg.in/yaml.v3"

	"github.com/twodip/twodip/tiles"
)

// ParseGlazesYAML is ReadGlazes on the text of a glazes.yaml: a list of
// blocks, or the same list below the key "glazes". Keys are those of the
// columns of a CSV; cautions and traits may be lists.
func ParseGlazesYAML(text []byte) ([]tiles.Glaze, error) {
	doc, ps := parseYAML(GlazesYAML, text)
	if len(ps) > 0 {
		return nil, ps
	}
	l := list{file: GlazesYAML, place: "line"}
	items, ok := glazeItems(doc)
	if !ok {
		return nil, problem(GlazesYAML, doc.Line, "is not a list of glazes", "begin each glaze with a dash:  - code: A")
	}
	for _, n := range items {
		l.addNode(n)
	}
	return l.done()
}

func glazeItems(doc *yaml.Node) ([]*yaml.Node, bool) {
	if doc == nil || doc.Tag == "!!null" {
		return nil, true
	}
	if doc.Kind == yaml.MappingNode && len(doc.Content) == 2 && doc.Content[0].Value == "glazes" {
		return glazeItems(doc.Content[1])
	}
	return doc.Content, doc.Kind == yaml.SequenceNode
}

func (l *list) addNode(n *yaml.Node) {
	if n.Kind != yaml.MappingNode {
		l.fail(n.Line, "", "is not a glaze", "write a code and a name below a dash:  - code: A")
		return
	}
	before := len(l.problems)
	w := writtenGlaze{line: n.Line}
	texts := map[string]*string{
		"code": &w.code, "name": &w.name, "was": &w.was, "finish": &w.finish, "cone": &w.cone, "color": &w.color, "colour": &w.color,
		"notes": &w.notes, "sg": &w.sg, "shade": &w.shade, "retired": &w.retired,
	}
	lists := map[string]*[]string{"cautions": &w.cautions, "traits": &w.traits}
	seen := map[string]bool{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		if seen[key.Value] {
			l.fail(key.Line, key.Value, key.Value+" is set twice for one glaze", "remove one of the two; a new glaze begins with a dash")
		}
		seen[key.Value] = true
		if text, ok := texts[key.Value]; ok {
			*text = l.scalar(key, value)
		} else if several, ok := lists[key.Value]; ok {
			*several = l.several(key, value)
		}
	}
	if len(l.problems) == before {
		l.add(w)
	}
}

// scalar is the value as it was typed: 06 stays 06.
func (l *list) scalar(key, value *yaml.Node) string {
	if value.Kind != yaml.ScalarNode {
		l.fail(value.Line, key.Value, key.Value+" should be a text on one line", "")
		return ""
	}
	if value.Tag == "!!null" {
		return ""
	}
	return value.Value
}

// several is a list, or one text cut as a cell of a CSV is.
func (l *list) several(key, value *yaml.Node) []string {
	if value.Kind != yaml.SequenceNode {
		at := ";|\n"
		if key.Value == "traits" {
			at += ","
		}
		return split(l.scalar(key, value), at)
	}
	var out []string
	for i, n := range value.Content {
		out = append(out, l.scalar(&yaml.Node{Value: fmt.Sprintf("%s, entry %d,", key.Value, i+1)}, n))
	}
	return out
}
