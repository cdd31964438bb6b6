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

// Resettled is a wall.yaml that says the settings as they are to be: only the
// values that differ from what it says now are written, in their places, and a
// setting that it does not have goes behind the last one of its block. Every
// other line, remarks among them, stays to the letter; it is the very text
// where nothing differs. What could not be read again is refused: errors are
// tiles.Problems.
func Resettled(text []byte, now tiles.Settings) ([]byte, error) {
	was, err := ParseSettings(text)
	if err != nil {
		return nil, err
	}
	plain := bytes.TrimPrefix(text, []byte("\ufeff"))
	doc, ps := parseYAML(SettingsFile, plain)
	if len(ps) > 0 {
		return nil, ps
	}
	impliedDepths(&was)
	impliedDepths(&now)
	s := settler{yamlText: newYAMLText(plain)}
	s.block(doc, "", reflect.ValueOf(was), reflect.ValueOf(now))
	after, ok := s.with()
	if !ok {
		return nil, problem(SettingsFile, 0, "is typed in a way that cannot be changed here: nothing is written", "change it in the file itself")
	}
	after = append(slices.Clone(text[:len(text)-len(plain)]), after...)
	is, err := ParseSettings(after)
	if err != nil {
		return nil, err
	}
	impliedDepths(&is)
	if what, differ := differs(reflect.ValueOf(is), reflect.ValueOf(now), ""); differ {
		return nil, problem(SettingsFile, 0, "would not say "+what+" as it was typed: nothing is written", "change it in the file itself")
	}
	return after, nil
}

// impliedDepths takes out the depths of shelves that go without saying.
func impliedDepths(s *tiles.Settings) {
	s.Kiln.Shelves = slices.Clone(s.Kiln.Shelves)
	for i, shelf := range s.Kiln.Shelves {
		if shelf.Shape == "round" && shelf.Depth == shelf.Width || shelf.Shape == "half-round" && shelf.Depth == shelf.Width/2 {
			s.Kiln.Shelves[i].Depth = 0
		}
	}
}

// settler writes what differs between two settings.
type settler struct{ *yamlText }

// yamlName is a field's name in the file; "" = it is in none.
func yamlName(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("yaml"), ",")
	if name == "-" {
		return ""
	}
	return name
}

// block writes what differs in a struct. node is nil where the file has no such
// block.
func (s settler) block(node *yaml.Node, indent string, was, now reflect.Value) {
	for i := range now.NumField() {
		name := yamlName(now.Type().Field(i))
		a, b := was.Field(i), now.Field(i)
		if name == "" || reflect.DeepEqual(a.Interface(), b.Interface()) {
			continue
		}
		key, value := keyed(node, name)
		switch {
		case b.Kind() == reflect.Struct && value != nil && value.Kind == yaml.MappingNode && len(value.Content) > 0:
			s.block(value, "", a, b)
		case b.Kind() == reflect.Struct:
			s.newBlock(node, key, value, name, a, b)
		case isItems(b):
			s.items(node, key, value, name, a, b)
		default:
			s.write(node, key, value, name, inYAML(b))
		}
	}
}

// keyed is a key of a mapping and its value; nil = there is none.
func keyed(node *yaml.Node, name string) (key, value *yaml.Node) {
	if node == nil || node.Kind != yaml.MappingNode {
		return nil, nil
	}
	for i := 0; i+1 < len(node.Content); i += 2 {
		if node.Content[i].Value == name {
			return node.Content[i], node.Content[i+1]
		}
	}
	return nil, nil
}

func (s settler) write(node, key, value *yaml.Node, name, by string) {
	switch {
	case value != nil:
		s.setValue(key, value, by)
	case node != nil && len(node.Content) > 0:
		s.add(node, name, by)
	default:
		s.atEnd(name + ": " + by)
	}
}

// atEnd puts a line behind all others.
func (s settler) atEnd(line string) { s.below(len(s.text), line) }

// newBlock writes a block that the file has not, or has with nothing in it.
func (s settler) newBlock(node, key, value *yaml.Node, name string, was, now reflect.Value) {
	var lines []string
	for i := range now.NumField() {
		a, b := was.Field(i), now.Field(i)
		if field := yamlName(now.Type().Field(i)); field != "" && !reflect.DeepEqual(a.Interface(), b.Interface()) {
			lines = append(lines, field+": "+inYAML(b))
		}
	}
	switch {
	case value != nil && !unsaid(value): // {} or null, as typed
		s.replace(value, "{"+strings.Join(lines, ", ")+"}")
	case key != nil:
		indent, _ := s.indentOf(key)
		s.below(s.past(s.end(key), ":"), indent+"  "+strings.Join(lines, s.newline()+indent+"  "))
	case node != nil && len(node.Content) > 0:
		s.add(node, name, "{"+strings.Join(lines, ", ")+"}")
	default:
		s.atEnd(name + ": {" + strings.Join(lines, ", ") + "}")
	}
}

// isItems says of a value that it is a list of blocks, such as shelves.
func isItems(v reflect.Value) bool {
	return v.Kind() == reflect.Slice && v.Type().Elem().Kind() == reflect.Struct
}

// items writes a list of blocks: those that both have are changed in their
// places, new ones go behind the last, and those that are gone are cut out.
func (s settler) items(node, key, value *yaml.Node, name string, was, now reflect.Value) {
	if value == nil || value.Kind != yaml.SequenceNode || len(value.Content) != was.Len() || len(value.Content) == 0 {
		s.allItems(node, key, value, name, now)
		return
	}
	for i := range min(was.Len(), now.Len()) {
		s.block(value.Content[i], "", was.Index(i), now.Index(i))
	}
	for i := was.Len(); i < now.Len(); i++ {
		s.addItem(value, inYAML(now.Index(i)))
	}
	for i := now.Len(); i < was.Len(); i++ {
		s.cut(value, i)
	}
}

// allItems writes the whole of a list that the file has not.
func (s settler) allItems(node, key, value *yaml.Node, name string, now reflect.Value) {
	if key == nil || !unsaid(value) {
		s.write(node, key, value, name, inYAML(now))
		return
	}
	indent, _ := s.indentOf(key)
	var lines []string
	for i := range now.Len() {
		lines = append(lines, indent+"  - "+inYAML(now.Index(i)))
	}
	s.below(s.past(s.end(key), ":"), strings.Join(lines, s.newline()))
}

// addItem puts an entry behind the last one of a list.
func (s settler) addItem(list *yaml.Node, by string) {
	end := s.lastEnd(list)
	if list.Style&yaml.FlowStyle != 0 {
		s.put(end, end, ", "+by)
		return
	}
	last := list.Content[len(list.Content)-1]
	before := strings.TrimRight(string(s.text[s.lines[last.Line-1]:s.at(last)]), " ")
	if strings.Trim(before, " ") != "-" {
		s.lost = true
		return
	}
	s.below(end, before+" "+by)
}

// cut takes out the i-th entry of a list with its lines, or with the comma
// before it. The first one of a list in one line stays.
func (s settler) cut(list *yaml.Node, i int) {
	n := list.Content[i]
	from, to := s.at(n), s.end(n)
	if list.Style&yaml.FlowStyle != 0 {
		if s.lost = s.lost || i == 0; !s.lost {
			s.put(s.end(list.Content[i-1]), to, "")
		}
		return
	}
	line := s.lines[n.Line-1]
	if s.lost || strings.TrimSpace(string(s.text[line:from])) != "-" {
		s.lost = true
		return
	}
	s.put(line, s.lineEnd(max(to-1, 0)), "")
}

// inYAML is a value as it stands in the file, in one line. What a block of a
// list does not say is left out.
func inYAML(v reflect.Value) string {
	switch v.Kind() {
	case reflect.String:
		return plainYAML(v.String())
	case reflect.Float64:
		return strconv.FormatFloat(v.Float(), 'f', -1, 64)
	case reflect.Slice:
		var out []string
		for i := range v.Len() {
			out = append(out, inYAML(v.Index(i)))
		}
		return "[" + strings.Join(out, ", ") + "]"
	case reflect.Struct:
		var out []string
		for i := range v.NumField() {
			if name := yamlName(v.Type().Field(i)); name != "" && !v.Field(i).IsZero() {
				out = append(out, name+": "+inYAML(v.Field(i)))
			}
		}
		return "{" + strings.Join(out, ", ") + "}"
	}
	return fmt.Sprint(v.Interface())
}

// differs names the first setting that two settings say otherwise.
func differs(a, b reflect.Value, path string) (string, bool) {
	switch {
	case b.Kind() == reflect.Struct:
		for i := range b.NumField() {
			name := yamlName(b.Type().Field(i))
			if name == "" {
				continue
			}
			if what, differ := differs(a.Field(i), b.Field(i), strings.TrimPrefix(path+": "+name, ": ")); differ {
				return what, true
			}
		}
		return "", false
	case b.Kind() == reflect.Slice:
		if a.Len() != b.Len() {
			return path, true
		}
		for i := range b.Len() {
			if what, differ := differs(a.Index(i), b.Index(i), path); differ {
				return what, true
			}
		}
		return "", false
	case b.Kind() == reflect.String:
		return path, a.String() != tidy(b.String())
	}
	return path, !reflect.DeepEqual(a.Interface(), b.Interface())
}
