package content

import (
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"github.com/twodip/twodip/tiles"
)

// WithHeadings is the text of a wall.yaml whose log: headings: say of more of the
// studio's headings which columns of the log they are; all else stays as it was
// typed. Errors are tiles.Problems.
func WithHeadings(text []byte, more map[string]string) ([]byte, error) {
	s, err := ParseSettings(text)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, name := range slices.Sorted(maps.Keys(more)) {
		if s.Log.Headings[name] != more[name] {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return text, nil
	}
	doc, ps := parseYAML(SettingsFile, text)
	if len(ps) > 0 {
		return nil, ps
	}
	after, indent, head, err := headingsPlace(text, doc)
	if err != nil {
		return nil, err
	}
	for _, name := range names {
		if _, twice := s.Log.Headings[name]; twice {
			return nil, tiles.Problem{File: SettingsFile, What: fmt.Sprintf("log: headings: says already what %q stands for", name), Do: "change it there by hand"}
		}
		head += indent + strconv.Quote(name) + ": " + more[name] + "\n"
	}
	out := insertAfter(text, after, head)
	if _, err := ParseSettings(out); err != nil {
		return nil, tiles.Problem{File: SettingsFile, What: "the headings could not be written into it", Do: "write them below log: headings: by hand"}
	}
	return out, nil
}

// headingsPlace is the line (1 and up) after which headings are written, how far
// in they stand, and what has to stand above them.
func headingsPlace(text []byte, doc *yaml.Node) (after int, indent, head string, err error) {
	end := bytes.Count(text, []byte("\n"))
	if len(text) > 0 && text[len(text)-1] != '\n' {
		end++
	}
	log, logKey := child(doc, "log")
	if log == nil {
		return end, "    ", "\nlog:\n  headings:\n", nil
	}
	byHand := tiles.Problem{File: SettingsFile, Line: logKey.Line, What: "log: is written in a way that the bench does not add to", Do: "write the headings below log: headings: by hand"}
	if log.Kind == yaml.ScalarNode && log.Value == "" {
		return logKey.Line, "    ", "  headings:\n", nil
	}
	if log.Kind != yaml.MappingNode || log.Style&yaml.FlowStyle != 0 || len(log.Content) == 0 {
		return 0, "", "", byHand
	}
	in := strings.Repeat(" ", log.Content[0].Column-1)
	own, ownKey := child(log, "headings")
	switch {
	case own == nil:
		return logKey.Line, in + "  ", in + "headings:\n", nil
	case own.Kind == yaml.ScalarNode && own.Value == "":
		return ownKey.Line, in + "  ", "", nil
	case own.Kind != yaml.MappingNode || own.Style&yaml.FlowStyle != 0 || len(own.Content) == 0:
		return 0, "", "", byHand
	}
	return ownKey.Line, strings.Repeat(" ", own.Content[0].Column-1), "", nil
}

func child(n *yaml.Node, key string) (value, name *yaml.Node) {
	if n == nil || n.Kind != yaml.MappingNode {
		return nil, nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1], n.Content[i]
		}
	}
	return nil, nil
}

// insertAfter puts lines after a line of the text, with the line ends it has.
func insertAfter(text []byte, line int, more string) []byte {
	if bytes.Contains(text, []byte("\r\n")) {
		more = strings.ReplaceAll(more, "\n", "\r\n")
	}
	lines := bytes.SplitAfter(text, []byte("\n"))
	line = min(line, len(lines))
	before, rest := bytes.Join(lines[:line], nil), bytes.Join(lines[line:], nil)
	if len(before) > 0 && before[len(before)-1] != '\n' {
		before = append(before, '\n')
	}
	return slices.Concat(before, []byte(more), rest)
}
