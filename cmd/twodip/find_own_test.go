package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/run"
)

// A photo of one of the wall's own tiles finds that tile before all others: by
// its name, under another name elsewhere, and when it is not measured yet.
func TestAWallsOwnPhotoFindsItsTileFirst(t *testing.T) {
	wanted := []tiles.Number{4, 7, 42, 66, 100}
	a, _ := demoTruth(t, func(one tiles.Tile) bool { return slices.Contains(wanted, one.Number) })
	first := func(photo string) run.Found {
		status, out, errs := twodip("find", photo, "--wall", a.wall, "--json", "--most", "2")
		require.Equal(t, 0, status, errs)
		var found run.Found
		require.NoError(t, json.Unmarshal([]byte(out), &found))
		require.Len(t, found.Tiles, 2)
		return found
	}
	for _, n := range wanted {
		own := filepath.Join(a.folder().Path(folder.Photos), n.String()+".jpg")
		data, err := os.ReadFile(own)
		require.NoError(t, err)
		elsewhere := filepath.Join(t.TempDir(), "IMG_2040.jpg")
		require.NoError(t, os.WriteFile(elsewhere, data, 0o644))
		for _, photo := range []string{own, n.String() + ".jpg", elsewhere} {
			found := first(photo)
			assert.Equal(t, n, found.Shows, photo)
			assert.Equal(t, n, found.Tiles[0].Tile, photo)
			assert.Less(t, found.Tiles[0].Away, 0.01, "%s: the reading that was kept is the tile's own", photo)
			assert.Equal(t, tiles.ClassGrey, found.Class, photo)
		}
		again := n.String() + " again.jpg"
		require.NoError(t, os.WriteFile(filepath.Join(a.folder().Path(folder.Photos), again), append(data, 0), 0o644))
		assert.Equal(t, n, first(again).Tiles[0].Tile, again)
	}
}
