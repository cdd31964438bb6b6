package content

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Text that would keep the reader of Markdown busy for minutes is refused.
func TestTangledPage(t *testing.T) {
	for unit, says := range map[string]string{
		"> ":      "content/a.md:3: is nested too deeply",
		">":       "content/a.md:3: is nested too deeply",
		"- ":      "content/a.md:3: is nested too deeply",
		"1. ":     "content/a.md:3: is nested too deeply",
		"[":       "content/a.md:3: has more than 2000 of the signs",
		"![](":    "content/a.md:3: has more than 2000 of the signs",
		"*a **b ": "content/a.md:3: has more than 2000 of the signs",
		"[^a]: ":  "content/a.md:3: has more than 2000 of the signs",
	} {
		_, err := ParsePage("content/a.md", []byte("# A\n\n"+strings.Repeat(unit, 10_000)))
		assert.ErrorContains(t, err, says, unit)
	}
	wide := strings.Repeat("|a", 500) + "|\n" + strings.Repeat("|-", 500) + "|\n" + strings.Repeat("|b\n", 20_000)
	for _, table := range []string{wide, strings.ReplaceAll(wide, "\n", "\r\n"), "> " + strings.ReplaceAll(wide, "\n|", "\n> |"), strings.ReplaceAll(wide, "|-", "|:-:")} {
		_, err := ParsePage("content/a.md", []byte("# A\n\n"+table))
		assert.ErrorContains(t, err, "content/a.md:42: the table has more than 20000 cells; make several of it, or show it as a picture")
	}
	for _, usual := range []string{
		"| a | b |\n|---|---|\n" + strings.Repeat("| 1 | 2 |\n", 3000),
		strings.Repeat("-", 400), strings.Repeat("* ", 30), "1. 2. 3.", strings.Repeat("- [a](b)\n", 900),
		strings.Repeat("- [a](b)\n\n", 3000), strings.Repeat("word ", 10_000), strings.Repeat("| - | 1.5 |\n", 2000),
	} {
		_, err := ParsePage("content/a.md", []byte("# A\n\n"+usual))
		assert.NoError(t, err, "%.40q", usual)
	}
}
