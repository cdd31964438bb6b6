package content

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"github.com/twodip/twodip/tiles"
)

// WithRule is the text of wall.yaml with one rule for one ordered pair, by its
// codes, in place of those it had for just that pair; do "" = without one.
// Everything else, comments too, stays letter for letter.
func WithRule(text []byte, r tiles.Rule) ([]byte, error) {
	doc, ps := parseYAML(SettingsFile, text)
	if len(ps) > 0 {
		return nil, ps
	}
	rules := valueOf(doc, "rules")
	after, err := withoutRule(text, rules, r)
	if err != nil || r.Do == "" {
		return after, err
	}
	if doc, ps = parseYAML(SettingsFile, after); len(ps) > 0 {
		return nil, ps
	}
	after, err = addRule(after, doc, ruleLine(r))
	if err != nil {
		return nil, err
	}
	return after, holdsRule(after, r)
}

// ruleLine is a rule as wall.yaml has it.
func ruleLine(r tiles.Rule) string {
	reason := ""
	if r.Reason != "" {
		reason = ", reason: " + quoted(r.Reason)
	}
	return fmt.Sprintf("{first: %s, second: %s, do: %s%s}", quoted(r.First), quoted(r.Second), r.Do, reason)
}

// quoted is a text as YAML reads it back: plain where it is a word of letters,
// which no YAML takes for yes, no, nothing or a number.
func quoted(s string) string {
	plain := len(s) > 2 && !slices.ContainsFunc([]rune(s), func(r rune) bool { return (r < 'A' || r > 'Z') && (r < 'a' || r > 'z') })
	if plain && !slices.Contains([]string{"yes", "off", "true", "false", "null", "nan", "inf"}, strings.ToLower(s)) {
		return s
	}
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", " ", "\r", " ", "\t", " ").Replace(tidy(s)) + `"`
}

// withoutRule takes out the rules for just that pair that stand on a line of
// their own; one over several lines is a person's to change.
func withoutRule(text []byte, rules *yaml.Node, r tiles.Rule) ([]byte, error) {
	if rules == nil || rules.Kind != yaml.SequenceNode {
		return text, nil
	}
	lines := bytes.SplitAfter(text, []byte("\n"))
	for _, n := range slices.Backward(rules.Content) {
		if !ofPair(n, r) {
			continue
		}
		if rules.Style&yaml.FlowStyle != 0 || !onOneLine(n) {
			return nil, inHand(n.Line)
		}
		lines = slices.Delete(lines, n.Line-1, n.Line)
	}
	return bytes.Join(lines, nil), nil
}

func inHand(line int) error {
	return problem(SettingsFile, line, "the rule for this pair is not written on a line of its own", "change it in the file by hand")
}

// ofPair says that a rule is for just that ordered pair.
func ofPair(n *yaml.Node, r tiles.Rule) bool {
	word := func(key string) string {
		if v := valueOf(n, key); v != nil {
			return v.Value
		}
		return ""
	}
	return tiles.SameCode(word("first"), r.First) && tiles.SameCode(word("second"), r.Second) && word("either") == ""
}

// onOneLine says that all of a node stands on its first line.
func onOneLine(n *yaml.Node) bool {
	for _, c := range n.Content {
		if c.Line != n.Line || !onOneLine(c) {
			return false
		}
	}
	return n.Kind != yaml.ScalarNode || !strings.Contains(n.Value, "\n")
}

// addRule puts a rule below the others: the last that fits decides.
func addRule(text []byte, doc *yaml.Node, line string) ([]byte, error) {
	lines := bytes.SplitAfter(ended(text), []byte("\n"))
	key, rules := keyOf(doc, "rules"), valueOf(doc, "rules")
	switch {
	case rules == nil:
		return slices.Concat(ended(text), []byte("\nrules:\n  - "+line+"\n")), nil
	case rules.Kind == yaml.SequenceNode && rules.Style&yaml.FlowStyle == 0 && len(rules.Content) > 0:
		last := rules.Content[len(rules.Content)-1]
		dash := bytes.IndexByte(lines[last.Line-1], '-')
		if dash < 0 {
			return nil, inHand(last.Line)
		}
		return insert(lines, lastLine(last), strings.Repeat(" ", dash)+"- "+line), nil
	case len(rules.Content) > 0:
		return nil, problem(SettingsFile, rules.Line, "the rules are not written one a line", "write each on a line of its own, or change them by hand")
	case rules.Value == "" && len(rules.Content) == 0 && rules.Style&yaml.FlowStyle == 0:
		return insert(lines, key.Line, "  - "+line), nil
	}
	return nil, problem(SettingsFile, key.Line, "rules: holds no list", "leave nothing after the colon")
}

func insert(lines [][]byte, after int, line string) []byte {
	return bytes.Join(slices.Insert(lines, after, []byte(line+"\n")), nil)
}

// ended is a text whose last line ends.
func ended(text []byte) []byte {
	if len(text) > 0 && text[len(text)-1] != '\n' {
		return slices.Concat(text, []byte("\n"))
	}
	return text
}

func lastLine(n *yaml.Node) int {
	last := n.Line
	for _, c := range n.Content {
		last = max(last, lastLine(c))
	}
	return last + strings.Count(n.Value, "\n")
}

// holdsRule makes sure that what was written says what was meant.
func holdsRule(text []byte, r tiles.Rule) error {
	s, err := ParseSettings(text)
	if err != nil {
		return err
	}
	if len(s.Rules) == 0 {
		return problem(SettingsFile, 0, "the rule could not be written into it", "write it by hand")
	}
	last := s.Rules[len(s.Rules)-1]
	if !tiles.SameCode(last.First, r.First) || !tiles.SameCode(last.Second, r.Second) || last.Do != r.Do || last.Reason != tidy(r.Reason) {
		return problem(SettingsFile, last.Line, "the rule could not be written into it", "write it by hand")
	}
	return nil
}

// keyOf and valueOf are a key of a mapping, and what stands below it.
func keyOf(n *yaml.Node, key string) *yaml.Node {
	k, _ := entry(n, key)
	return k
}

func valueOf(n *yaml.Node, key string) *yaml.Node {
	_, v := entry(n, key)
	return v
}

func entry(n *yaml.Node, key string) (k, v *yaml.Node) {
	if n == nil || n.Kind != yaml.MappingNode {
		return nil, nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i], n.Content[i+1]
		}
	}
	return nil, nil
}
