package plan

import (
	"strings"
	"unicode"
)

// codeKey is the same string for two codes exactly when tiles.SameCode holds,
// so that a code can key a map: every letter becomes the least of its cases.
func codeKey(code string) string {
	return strings.Map(func(r rune) rune {
		least := r
		for c := unicode.SimpleFold(r); c != r; c = unicode.SimpleFold(c) {
			least = min(least, c)
		}
		return least
	}, code)
}
