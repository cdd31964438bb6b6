package sheet_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
)

func TestLogHeadsWithTheWallsCodesAndRules(t *testing.T) {
	w := wallOf(glazes)
	said := flat(t, drawn(t, sheet.Log, jobOf(w)))
	for _, g := range glazes {
		require.Contains(t, said, g.Code+" "+g.Name)
	}
	for _, rule := range []string{
		"Two coats at most", "Dip for 3 seconds", "Between the coats wait 10 minutes", "not tested for food",
		"Gloves, it holds soluble salts: ST.", "Never where food or drink touches: KC.",
		"Never 1st any runny glaze → 2nd any runny glaze: both run off the tile.",
	} {
		require.Contains(t, said, rule)
	}
	require.NotContains(t, said, "brush", "no box for what the studio does not allow")
	w.Dip.Brush = true
	require.Contains(t, flat(t, drawn(t, sheet.Log, jobOf(w))), "dip pour brush")
}

// No sheet may ever call two coats safe for food, whatever the glaze list says
// of each alone.
func TestNoSheetSaysFoodSafe(t *testing.T) {
	job := jobOf(placed(wallOf(glazes)))
	for _, s := range sheet.Sheets() {
		require.NotContains(t, strings.ToLower(flat(t, drawn(t, s.Draw, job))), "food safe", s.Name)
	}
	require.Contains(t, flat(t, drawn(t, sheet.Labels, job)), "not tested for food")
}

func TestRetiredGlazesHaveNoCard(t *testing.T) {
	w := wallOf(append([]tiles.Glaze{{Code: "ZZ", Name: "Gone Gray", Retired: true}}, glazes...))
	require.NotContains(t, flat(t, drawn(t, sheet.Buckets, jobOf(w))), "Gone Gray")
	require.NotContains(t, flat(t, drawn(t, sheet.Log, jobOf(w))), "Gone Gray")
}
