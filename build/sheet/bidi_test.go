package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

// The order of letters on paper, by the rules of UAX #9.
func TestVisualOrder(t *testing.T) {
	for read, stands := range map[string]string{
		"Quarry Milk":    "Quarry Milk",
		"זיגוג לבן":      "ןבל גוגיז",
		"זיגוג לבן 12":   "12 ןבל גוגיז",
		"Glaze זיגוג":    "Glaze גוגיז",
		"לבן Milk":       "Milk ןבל",
		"A לבן 12 זיג B": "A גיז 12 ןבל B",

		// Each glaze of a pair set apart (tiles.Apart): the arrow and the words
		// stay where an English sentence has them.
		tiles.Pair{First: "חל", Second: "ŻŁ"}.String():    "1st לח → 2nd ŻŁ",
		tiles.Pair{First: "ŻŁ", Second: "חל"}.String():    "1st ŻŁ → 2nd לח",
		tiles.Pair{First: "חל", Second: "זג"}.String():    "1st לח → 2nd גז",
		tiles.Pair{First: "חל", Second: "12"}.String():    "1st לח → 2nd 12",
		tiles.Pair{First: "חל"}.String():                  "1st לח alone",
		tiles.Pair{First: "חל", Second: "חל"}.String():    "1st לח → 2nd לח again",
		tiles.Apart("חל") + " → " + tiles.Apart("12"):     "לח → 12",
		tiles.Apart("חל 3") + " → " + tiles.Apart("זג 4"): "3 לח → 4 גז",
	} {
		var all strings.Builder
		for _, part := range pieces(read) {
			all.WriteString(part.text)
		}
		require.Equal(t, stands, all.String(), read)
	}
}

// Forms as the Unicode Standard's table of Arabic joining gives them: seen
// before, medial yeh, final alef; lam with alef is one letter.
func TestArabicIsJoined(t *testing.T) {
	all := func(rune) bool { return true }
	for letters, forms := range map[string]string{
		"سيا":   "\uFEB3\uFEF4\uFE8E", // seen initial, yeh medial, alef final
		"دار":   "\uFEA9\uFE8D\uFEAD", // none of the three joins the next
		"لا":    "\uFEFB",             // lam with alef
		"طلاء":  "\uFEC3\uFEFC\uFE80", // tah initial, lam-alef final, hamza alone
		"پی":    "\uFB58\uFBFD",       // Persian peh initial, yeh final
		"لبن 1": "\uFEDF\uFE92\uFEE6 1",
		"Milk":  "Milk",
	} {
		require.Equal(t, forms, joinArabic(letters, all), letters)
	}
	require.Equal(t, "سيا", joinArabic("سيا", func(r rune) bool { return r < 0xFB00 }), "a font without the forms")
}
