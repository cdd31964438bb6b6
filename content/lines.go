package content

import (
	"fmt"
	"reflect"
	"strings"

	"gopkg.in/yaml.v3"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

// item names the i-th item of a list, as linesOf does.
func item(path string, i int) string { return fmt.Sprintf("%s[%d]", path, i) }

// linesOf gives the line of every value of a document by its path:
// "tile.width", "kiln.shelves[0].shape".
func linesOf(doc *yaml.Node) map[string]int {
	lines := map[string]int{}
	if doc != nil {
		collectLines(doc, "", lines)
	}
	return lines
}

func collectLines(n *yaml.Node, path string, lines map[string]int) {
	if path != "" {
		lines[path] = n.Line
	}
	switch n.Kind {
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			key := n.Content[i].Value
			if path != "" {
				key = path + "." + key
			}
			collectLines(n.Content[i+1], key, lines)
			lines[key] = n.Content[i].Line
		}
	case yaml.SequenceNode:
		for i, c := range n.Content {
			collectLines(c, item(path, i), lines)
		}
	}
}

// Placed gives problems of wall.yaml that name a setting and no line the line
// on which that setting stands.
func Placed(dir folder.Folder, ps tiles.Problems) tiles.Problems {
	var lines map[string]int
	for i, p := range ps {
		if p.File != SettingsFile || p.Line > 0 {
			continue
		}
		if lines == nil {
			lines = map[string]int{}
			if text, err := readText(dir, SettingsFile, maxYAML); err == nil {
				doc, _ := parseYAML(SettingsFile, text)
				lines = linesOf(doc)
			}
		}
		longest := 0
		for path, line := range lines {
			if len(path) > longest && strings.HasPrefix(p.What, strings.ReplaceAll(path, ".", ": ")+" ") {
				ps[i].Line, longest = line, len(path)
			}
		}
	}
	return ps
}

// keysOf lists the keys of the struct type with the name, anywhere below into.
func keysOf(into any, typeName string) []string {
	if into == nil {
		return nil
	}
	return findKeys(reflect.TypeOf(into), typeName)
}

func findKeys(t reflect.Type, typeName string) []string {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct {
		return nil
	}
	var keys []string
	for i := range t.NumField() {
		f := t.Field(i)
		if t.String() != typeName {
			if found := findKeys(f.Type, typeName); found != nil {
				return found
			}
			continue
		}
		if key, _, _ := strings.Cut(f.Tag.Get("yaml"), ","); key != "" && key != "-" {
			keys = append(keys, key)
		}
	}
	return keys
}
