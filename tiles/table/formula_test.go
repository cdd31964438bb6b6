package table

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// The characters are those of the OWASP page "CSV Injection", from memory:
// = + - @, tab, carriage return, line feed and the full-width forms.
func TestNoCellStartsAFormula(t *testing.T) {
	for value, want := range map[string]string{
		"=1+1":                           "'=1+1",
		"@SUM(A1)":                       "'@SUM(A1)",
		"+cmd|' /C calc'!A0":             "'+cmd|' /C calc'!A0",
		"-2+3":                           "'-2+3",
		"＝1":                             "'＝1",
		"\t=1":                           "\t'=1",
		" =1":                            "' =1",
		"'=1":                            "''=1",
		"mild;=HYPERLINK(\"http://x\")":  "mild;'=HYPERLINK(\"http://x\")",
		"-14.2":                          "-14.2",
		"-14,2":                          "-14,2",
		"+5":                             "+5",
		"blue-green":                     "blue-green",
		"O'Hara":                         "O'Hara",
		"a@b":                            "a@b",
		"thin, then = nothing to see":    "thin, then = nothing to see",
		"1st A → 2nd B, both at cone 6":  "1st A → 2nd B, both at cone 6",
		"'quoted' at the start, no sign": "'quoted' at the start, no sign",
	} {
		assert.Equal(t, want, Guard(value))
		assert.Equal(t, value, Unguard(want))
	}
}

func TestGuardIsReversible(t *testing.T) {
	danger := regexp.MustCompile(`(^|[,;\t\r\n]) *[=+@＝＋－＠-]`)
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringOf(rapid.RuneFrom([]rune("ab '=+-@,;\t\r\n＝5.#"))).Draw(t, "s")
		g := Guard(s)
		assert.Equal(t, s, Unguard(g))
		assert.False(t, danger.MatchString(g) && !number.MatchString(g), "%q", g)
	})
}
