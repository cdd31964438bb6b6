package tiles

import (
	"strings"
	"unicode"
)

// CodeKey is the same string for two codes exactly when SameCode holds, so that
// a code can key a map: every letter becomes the least of its cases.
func CodeKey(code string) string {
	return strings.Map(func(r rune) rune {
		least := r
		for c := unicode.SimpleFold(r); c != r; c = unicode.SimpleFold(c) {
			least = min(least, c)
		}
		return least
	}, code)
}

// Key is the pair for a map: the same for two pairs exactly when Same holds.
func (p Pair) Key() Pair { return Pair{First: CodeKey(p.First), Second: CodeKey(p.Second)} }

// Fold makes what people write comparable: small letters, single spaces.
func Fold(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }
