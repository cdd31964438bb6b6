package english

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestCounts(t *testing.T) {
	assert.Equal(t, "1 tile", Count(1, "tile", "tiles"))
	assert.Equal(t, "0 tiles", Count(0, "tile", "tiles"))
	assert.Equal(t, "3600 tiles", Count(3600, "tile", "tiles"))
	assert.Equal(t, "are", Number(2, "is", "are"))
}

func TestLists(t *testing.T) {
	assert.Equal(t, "", And(nil))
	assert.Equal(t, "A", And([]string{"A"}))
	assert.Equal(t, "A and B", And([]string{"A", "B"}))
	assert.Equal(t, "A, B and C", And([]string{"A", "B", "C"}))
	assert.Equal(t, "shelf top of load 3; Salt Fog, first or second and load 4", AndOf([]string{"shelf top of load 3", "Salt Fog, first or second", "load 4"}))
	six := strings.Fields("A B C D E F")
	assert.Equal(t, "A, B, C, D and 2 more", And(First(4, six)))
	assert.Equal(t, "A, B, C, D and E", And(First(4, six[:5])), "one that is left is named")
	assert.Equal(t, strings.Fields("A B C D E F"), six, "the list itself stays")
}

// The capitals are those of the Unicode Character Database, titlecase mappings
// (UnicodeData.txt): é → É, ß has none, ǆ → ǅ, ж → Ж.
func TestCapitalCutsAtLetters(t *testing.T) {
	for s, want := range map[string]string{"éclatement": "Éclatement", "ßpots": "ßpots", "ǆem": "ǅem", "жар": "Жар", "": "", "7 tiles": "7 tiles"} {
		assert.Equal(t, want, Capital(s))
	}
	rapid.Check(t, func(r *rapid.T) {
		s := rapid.String().Draw(r, "s")
		assert.True(t, utf8.ValidString(Capital(s)))
	})
}

func TestSentence(t *testing.T) {
	assert.Equal(t, "The foot is not wiped.", Sentence(" the foot is not wiped "))
	assert.Equal(t, "Did you mean Lamp Rust (LR)?", Sentence("did you mean Lamp Rust (LR)?"))
	assert.Equal(t, "", Sentence(" "))
}
