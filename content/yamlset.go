package content

import (
	"strings"

	"gopkg.in/yaml.v3"
)

// set gives a key of a mapping another value, written as YAML in one line; a
// key that is not there is put behind the last one.
func (y *yamlText) set(mapping *yaml.Node, key, value string) {
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		if k, v := mapping.Content[i], mapping.Content[i+1]; k.Value == key {
			y.setValue(k, v, value)
			return
		}
	}
	y.add(mapping, key, value)
}

func (y *yamlText) setValue(key, value *yaml.Node, by string) {
	switch {
	case unsaid(value):
		at := y.past(y.end(key), ":")
		y.put(at, at, " "+by)
	case value.Kind == yaml.SequenceNode && value.Style&yaml.FlowStyle == 0:
		y.setBlock(key, value, by)
	default:
		y.replace(value, by)
	}
}

// setBlock writes a list in one line in place of one of several. Remarks in it
// would be lost, so that it is left then.
func (y *yamlText) setBlock(key, value *yaml.Node, by string) {
	at, end := y.past(y.end(key), ":"), y.end(value)
	if y.lost || strings.Contains(string(y.text[at:end]), "#") {
		y.lost = true
		return
	}
	y.put(at, end, " "+by)
}

// add puts a key behind the last one of a mapping.
func (y *yamlText) add(mapping *yaml.Node, key, value string) {
	if mapping.Style&yaml.FlowStyle != 0 {
		at, comma := y.at(mapping)+1, ""
		if len(mapping.Content) > 0 {
			at, comma = y.lastEnd(mapping), ", "
		}
		y.put(at, at, comma+key+": "+value)
		return
	}
	indent, _ := y.indentOf(mapping.Content[0])
	// Behind a dash the keys stand below the first one.
	y.below(y.lastEnd(mapping), strings.Repeat(" ", len([]rune(indent)))+key+": "+value)
}

// plainYAML is a text as YAML writes it in one line: as it is where that is
// read as the same text anywhere, else in quotation marks.
func plainYAML(s string) string {
	var n yaml.Node
	if !strings.ContainsAny(s, ",[]{}#:&*!|>'\"%@`\\\n\r\t\u0085\u2028\u2029\ufeff") && s == strings.TrimSpace(s) &&
		yaml.Unmarshal([]byte("k: "+s), &n) == nil {
		if v := n.Content[0].Content[1]; v.Kind == yaml.ScalarNode && v.Tag == "!!str" && v.Value == s {
			return s
		}
	}
	out, err := yaml.Marshal(&yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Style: yaml.DoubleQuotedStyle, Value: s})
	if err != nil {
		return `""`
	}
	return strings.TrimSuffix(string(out), "\n")
}

// listYAML is several texts as a list in one line.
func listYAML(words []string) string {
	var out []string
	for _, w := range words {
		out = append(out, plainYAML(w))
	}
	return "[" + strings.Join(out, ", ") + "]"
}
