package door

import (
	"io/fs"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/themes"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/logbook"
)

// symbols finds the drawings in the theme.
var symbols = regexp.MustCompile(`<symbol id="([^"]+)"[^>]*>(.*)</symbol>`)

// TestEveryFaultHasAPictureOfItsOwn looks for the drawing of each word, and for
// two that are the same.
func TestEveryFaultHasAPictureOfItsOwn(t *testing.T) {
	text, err := fs.ReadFile(themes.Door(), "faults.html")
	require.NoError(t, err)
	drawn := map[string]string{}
	for _, m := range symbols.FindAllStringSubmatch(string(text), -1) {
		drawn[m[1]] = m[2]
	}
	same := map[string]string{}
	for _, w := range faultWords() {
		picture := drawn[w.Picture]
		assert.NotEmpty(t, picture, w.Name)
		assert.Empty(t, same[picture], w.Name)
		same[picture] = w.Name
		assert.NotEmpty(t, w.Sign, w.Name)
	}
	assert.Len(t, drawn, len(logbook.Words), "no picture is left over")
}

// TestTheZonesAreThoseOfThePiece asks no second coat of a piece that has one.
func TestTheZonesAreThoseOfThePiece(t *testing.T) {
	w := tiles.Wall{Glazes: []tiles.Glaze{{Code: "QM", Name: "Quarry Milk"}, {Code: "FG", Name: "Fen Glass"}}}
	var says []string
	for _, z := range zoneChoices(tiles.Pair{First: "QM", Second: "FG"}, w) {
		assert.True(t, isZone(z.Value))
		says = append(says, z.Text)
	}
	assert.Equal(t, []string{"2nd alone: Fen Glass", "both", "1st alone: Quarry Milk", "all over"}, says)
	assert.Len(t, zoneChoices(tiles.Pair{First: "QM"}, w), 2)
	assert.False(t, isZone("rim"))
}
