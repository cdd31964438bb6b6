package measure_test

import (
	"bytes"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content/demo"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/measure"
)

// The demo's photos are computed from known colors through a lamp, a camera
// and JPEG (see package demo): their zones are found, and read by the sheet of
// grey card they lie on, as the demo's wall does. Glazes that run, crawl, break and look
// like their ground are among them.
func TestMadePhotosReadNearTheirTrueColors(t *testing.T) {
	w := wall()
	w.Settings.Tile.Bare = 9
	w.Settings.Tile.Height = 90
	w.Settings.Photo.Reference = "ground"
	sheet := []color.Patch{{Lab: color.Lab{L: 64}, Neutral: true}} // as the demo's content/grey-sheet.csv says
	w.Tiles = nil
	for i, p := range []tiles.Pair{{First: "QM"}, {First: "QM", Second: "LR"}, {First: "LR", Second: "QM"}, {First: "PT", Second: "SB"}, {First: "SB", Second: "PT"}} {
		w.Tiles = append(w.Tiles, tiles.Tile{Number: tiles.Number(i + 1), Pair: p})
	}
	studio := demo.NewStudio(w.Settings.Tile, demo.Seed)
	var far []float64
	var reader measure.Reader
	for _, tile := range w.Tiles {
		var photo bytes.Buffer
		truth, err := studio.JPEG(&photo, tile)
		require.NoError(t, err)
		res, err := reader.Read(photo.Bytes(), measure.Ask{Wall: w, Patches: sheet, Photo: tile.Number.String() + ".jpg"})
		require.NoError(t, err)
		require.NotEmpty(t, res.Readings)
		for _, r := range res.Readings {
			require.Equal(t, measure.FoundOutline, r.Found, "tile %s", tile.Number)
			require.Contains(t, truth, r.Zone)
			d := apart(r, truth[r.Zone])
			far = append(far, d)
			assert.Less(t, d, 5.0, "tile %s %s", tile.Number, r.Zone)
		}
	}
	slices.Sort(far)
	assert.Less(t, far[len(far)/2], 1.5, "median")
}
