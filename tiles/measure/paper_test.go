package measure

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/mark/simulate"
)

// A mat without a card is corrected by its own paper; one with a card by both;
// where the wall asks for nothing to be used, by neither.
func TestTheMatsPaperIsAReference(t *testing.T) {
	bare, card := onMat(t, 3, 4), onMatBeside(t, simulate.Grey)
	for _, c := range []struct {
		data       []byte
		reference  string
		correction string
		class      tiles.Class
	}{
		{bare, "", "white paper", tiles.ClassGrey},
		{bare, "none", "none", tiles.ClassCamera},
		{card, "", "grey card and paper", tiles.ClassGrey},
		{card, "grey", "grey card and paper", tiles.ClassGrey},
		{card, "none", "none", tiles.ClassCamera},
	} {
		w := smallWall()
		w.Photo.Reference = c.reference
		var r Reader
		res, err := r.Read(c.data, Ask{Wall: w, Photo: "3.jpg"})
		require.NoError(t, err)
		assert.Equal(t, c.correction, res.Readings[0].Correction)
		assert.Equal(t, c.class, res.Readings[0].Class)
	}
}

// A paper whose color the settings give is the studio's own: it corrects more
// surely, with a card and without.
func TestTheStudiosOwnPaperIsUsed(t *testing.T) {
	for correction, data := range map[string][]byte{"own paper": onMat(t, 3, 4), "grey card and own paper": onMatBeside(t, simulate.Grey)} {
		w := smallWall()
		var r Reader
		before, err := r.Read(data, Ask{Wall: w, Photo: "3.jpg"})
		require.NoError(t, err)
		w.Photo.Paper = []float64{90, 0, 4}
		after, err := r.Read(data, Ask{Wall: w, Photo: "3.jpg"})
		require.NoError(t, err)
		assert.Equal(t, correction, after.Readings[0].Correction)
		assert.LessOrEqual(t, after.Readings[0].Doubt, before.Readings[0].Doubt)
		if correction == "own paper" { // beside a card it tells little of the tint
			assert.Greater(t, after.Readings[0].B, before.Readings[0].B, "a yellower paper makes what lies on it yellower")
		}
		assert.NotEqual(t, before.Readings[0].Hash, after.Readings[0].Hash)
	}
}

// A card in a strange color is said though nobody asked for a card; blank paper in
// its place is not.
func TestACardThatIsNotUsedIsSaid(t *testing.T) {
	for name, c := range map[string]struct {
		card simulate.RGB
		said bool
	}{"green": {simulate.SRGB(40, 120, 60), true}, "paper": {simulate.White, false}} {
		var r Reader
		res, err := r.Read(onMatBeside(t, c.card), Ask{Wall: smallWall(), Photo: "3.jpg"})
		require.NoError(t, err)
		assert.Equal(t, c.said, strings.Contains(strings.Join(res.Notes, " "), "the grey card was not used: what lies there is"), "%s: %v", name, res.Notes)
		assert.Equal(t, "white paper", res.Readings[0].Correction, name)

		two := []color.Patch{{Name: "white", Lab: color.Lab{L: 95}, Neutral: true}, {Name: "red", Lab: color.Lab{L: 40, A: 50, B: 30}}}
		res, err = r.Read(onMatBeside(t, c.card), Ask{Wall: smallWall(), Photo: "3.jpg", Patches: two})
		require.NoError(t, err)
		assert.Equal(t, c.said, strings.Contains(strings.Join(res.Notes, " "), "the reference was not used"), "%s in place of a chart: %v", name, res.Notes)
	}
}

// The edge of a shadow across the mat is said, widens the doubt, and the color
// stays near what it is in even light.
func TestAShadowsEdgeAcrossTheMatIsSaid(t *testing.T) {
	read := func(data []byte) (tiles.Reading, string) {
		var r Reader
		res, err := r.Read(data, Ask{Wall: smallWall(), Photo: "3.jpg"})
		require.NoError(t, err)
		return res.Readings[0], strings.Join(res.Notes, " ")
	}
	even, none := read(onMatBeside(t, simulate.Grey))
	assert.NotContains(t, none, "shadow")
	dark, said := read(onMatInShadow(t))
	assert.Contains(t, said, "the edge of a shadow, or a reflection, lies across the mat")
	assert.Greater(t, dark.Doubt, even.Doubt+0.2)
	assert.Less(t, color.DE00(color.Lab{L: dark.L, A: dark.A, B: dark.B}, color.Lab{L: even.L, A: even.A, B: even.B}), 3.0)
}

func TestANameThatNoTableKeepsIsRefused(t *testing.T) {
	var r Reader
	_, err := r.Read(nil, Ask{Wall: smallWall(), Photo: "7\r.jpg"})
	require.ErrorContains(t, err, "rename it")
}
