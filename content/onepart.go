package content

import (
	"bytes"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"github.com/twodip/twodip/tiles"
)

// WithPart is the text of wall.yaml asking for a part of the wall: so many
// glazes, so many partners, both orders or not. Everything else, comments and
// part.prefer too, stays letter for letter.
func WithPart(text []byte, part tiles.Portion) ([]byte, error) {
	before, err := ParseSettings(text)
	if err != nil {
		return nil, err
	}
	after := text
	for _, set := range []struct{ key, value string }{
		{"glazes", strconv.Itoa(part.Glazes)}, {"pairs", strconv.Itoa(part.Pairs)}, {"both", strconv.FormatBool(part.Both)},
	} {
		if after, err = withSetting(after, "part", set.key, set.value); err != nil {
			return nil, err
		}
	}
	now, err := ParseSettings(after)
	if err != nil {
		return nil, err
	}
	part.Prefer = before.Part.Prefer
	if !reflect.DeepEqual(now.Part, part) {
		return nil, problem(SettingsFile, 0, "part: could not be written into it", "write it by hand")
	}
	return after, nil
}

// withSetting sets one plain value of one section. A value that says the same
// stays as it was typed.
func withSetting(text []byte, section, key, value string) ([]byte, error) {
	doc, ps := parseYAML(SettingsFile, text)
	if len(ps) > 0 {
		return nil, ps
	}
	head, in := entry(doc, section)
	lines := bytes.SplitAfter(ended(text), []byte("\n"))
	line := fmt.Sprintf("%s: %s", key, value)
	switch old := valueOf(in, key); {
	case head == nil:
		return slices.Concat(ended(text), []byte("\n"+section+":\n  "+line+"\n")), nil
	case old != nil:
		return withScalar(lines, old, value)
	case in.Kind == yaml.MappingNode && in.Style&yaml.FlowStyle != 0:
		at := columnAt(lines[in.Line-1], in.Column)
		lines[in.Line-1] = slices.Concat(lines[in.Line-1][:at+1], []byte(line+", "), lines[in.Line-1][at+1:])
		return bytes.Join(lines, nil), nil
	case in.Kind == yaml.MappingNode:
		first := in.Content[0]
		return bytes.Join(slices.Insert(lines, first.Line-1, []byte(strings.Repeat(" ", first.Column-1)+line+"\n")), nil), nil
	case in.Value == "":
		return insert(lines, head.Line, "  "+line), nil
	}
	return nil, problem(SettingsFile, head.Line, section+": is not understood", "write its settings below it, each on a line of its own")
}

// withScalar puts a value in the place of another on its line.
func withScalar(lines [][]byte, old *yaml.Node, value string) ([]byte, error) {
	if old.Value == value {
		return bytes.Join(lines, nil), nil
	}
	line := lines[old.Line-1]
	at := columnAt(line, old.Column)
	if at < 0 || old.Kind != yaml.ScalarNode || old.Value == "" || !bytes.HasPrefix(line[at:], []byte(old.Value)) {
		return nil, problem(SettingsFile, old.Line, "is written in a way that cannot be changed here", "change it by hand")
	}
	lines[old.Line-1] = slices.Concat(line[:at], []byte(value), line[at+len(old.Value):])
	return bytes.Join(lines, nil), nil
}
