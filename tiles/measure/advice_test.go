package measure

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
)

// Tiles far stronger in color than the controls are named, the farthest first and
// then one in another direction; among strong controls none is.
func TestTilesThatWouldBeBetterControlsAreNamed(t *testing.T) {
	fixOn := func(labs ...color.Lab) *Fix {
		var seen []correct.Seen
		for _, l := range labs {
			c := l.XYZ()
			back := color.SRGBToXYZ.Inverse()
			r, g, b := back.Times(c.X, c.Y, c.Z)
			seen = append(seen, correct.Seen{Patch: color.Patch{Lab: l}, RGB: correct.RGB{r, g, b}})
		}
		fix, err := correct.Fit(seen, color.SRGBToXYZ)
		require.NoError(t, err)
		return &Fix{Correction: fix, class: tiles.ClassControls}
	}
	rs := []tiles.Reading{{Tile: 4, L: 50, A: 5, B: 5}, {Tile: 7, L: 40, A: 45, B: 30}, {Tile: 8, L: 40, A: 42, B: 28}, {Tile: 9, L: 40, A: 0, B: -40}}
	grey := []color.Lab{{L: 30, A: 2, B: 3}, {L: 50, A: -3, B: 5}, {L: 70, A: 1, B: 9}, {L: 85, A: 0, B: 4}}
	require.Equal(t, "colors stronger than all controls are in wider doubt: photograph tiles 7 and 9 on the mat with a chart, and they are controls too", moreControls(fixOn(grey...), rs))
	require.Empty(t, moreControls(fixOn(append(grey, color.Lab{L: 40, A: 50, B: 30}, color.Lab{L: 40, A: 3, B: -38})...), rs))
	require.Empty(t, moreControls(&Fix{Correction: correct.None(color.SRGBToXYZ)}, rs))
	weak, strong := fixOn(grey...).DoubtAt(color.Lab{L: 40, A: 45, B: 30}), fixOn(grey...).DoubtAt(color.Lab{L: 40, A: 2, B: 3})
	require.Greater(t, weak, strong+1)
}
