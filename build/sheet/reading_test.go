package sheet_test

import (
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
)

// Who copies or searches a sheet gets pairs in the order they are dipped in,
// also where both names read from the right: pdftotext, which is poppler, is
// asked for every pair of a wall whose names are in Hebrew or Arabic letters.
func TestPairsFromTheRightAreReadInOrder(t *testing.T) {
	need(t, "pdftotext")
	for _, codes := range [][]string{{"חל", "חמ", "אט", "צד"}, {"دا", "ور", "زد", "دو"}} { // letters of these do not join
		var list []tiles.Glaze
		for i, code := range codes {
			list = append(list, tiles.Glaze{Code: code, Name: strings.Repeat(codes[(i+1)%4]+" ", 18), SG: 1.45})
		}
		w := placed(wallOf(list))
		w.Name = strings.Repeat(codes[0]+" ", 8)
		// On labels with long names most letters read from the right.
		labels := withoutBidi(outside(t, "pdftotext", saved(t, drawn(t, sheet.Labels, jobOf(w))), "-"))
		for _, code := range codes {
			require.Contains(t, labels, "1st "+code)
			require.Contains(t, labels, "→ 2nd "+code)
		}
		for pair, draw := range map[string]func(io.Writer, sheet.Job) (int, error){"%s → %s": sheet.Dips, "1st %s → 2nd %s": sheet.Shelves} {
			said := withoutBidi(outside(t, "pdftotext", saved(t, drawn(t, draw, jobOf(w))), "-"))
			for _, tile := range w.Tiles {
				if !tile.Single() {
					require.Contains(t, said, fmt.Sprintf(pair, tile.First, tile.Second))
				}
			}
		}
	}
}

// withoutBidi leaves the marks of direction out, and Arabic letters as a list
// has them.
func withoutBidi(s string) string {
	return arabicAlone.Replace(strings.Map(func(r rune) rune {
		if r == '\u200e' || r >= '\u202a' && r <= '\u202e' {
			return -1
		}
		return r
	}, s))
}

// arabicAlone are the letters above as they stand alone (The Unicode Standard,
// Arabic Presentation Forms-B).
var arabicAlone = strings.NewReplacer("\uFE8D", "ا", "\uFEA9", "د", "\uFEAD", "ر", "\uFEAF", "ز", "\uFEED", "و")
