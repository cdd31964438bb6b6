package content

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

func TestTheDefaultsAreWise(t *testing.T) {
	assert.Empty(t, Unwise(Defaults()))
	files, err := Starter()
	require.NoError(t, err)
	s, err := ParseSettings(files["wall.yaml"])
	require.NoError(t, err)
	assert.Empty(t, Unwise(s))
}

// What may be written and is still said: common practice, no source.
func TestUnwiseSettingsAreRemarkedAndTaken(t *testing.T) {
	for text, want := range map[string]string{
		"tile: {layout: ends, bare: 9, first-dip: 54, second-dip: 54}":          "cannot be dipped from the end its foot is on",
		"tile: {layout: ends, foot: 6, bare: 9, first-dip: 54, second-dip: 54}": "runs over the first glaze below it",
		"tile: {foot: 0}": "needs a foot or a stand",
		"tile: {width: 30, first-dip: 20, second-dip: 20}": "the zones are 10, 10 and 10 mm",
		"tile: {bare: 3}":       "may fuse to its shelf",
		"dip: {thickness: 0.8}": "2 coats are 1.6 mm",
		"dip: {dry: 1}":         "until its sheen is gone",
		"kiln: {tray: 5}":       "10 mm all round",
	} {
		s, err := ParseSettings([]byte(text + "\n"))
		require.NoError(t, err, text)
		said := Unwise(s)
		require.Len(t, said, 1, text)
		assert.Contains(t, said[0], want)
	}
	flat := Defaults()
	flat.Tile.Layout, flat.Tile.Foot, flat.Tile.Bare, flat.Kiln.Upright = tiles.LayoutEnds, 0, 9, false
	flat.Tile.FirstDip, flat.Tile.SecondDip = 54, 54
	assert.Empty(t, Unwise(flat), "a flat tile dipped from its ends")
	thin := Defaults()
	thin.Dip.Thickness, thin.Dip.Coats = 0.8, 1
	assert.Empty(t, Unwise(thin))
}
