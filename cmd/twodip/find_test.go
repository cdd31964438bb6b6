package main

import (
	"encoding/json"
	"image/color"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/run"
)

// A photo of something that is no tile finds the tile that looks like it.
func TestFindByAPhoto(t *testing.T) {
	dir := photoWall(t)
	twodip("measure", "--wall", dir)
	leaf := filepath.Join(t.TempDir(), "leaf.jpg")
	require.NoError(t, os.WriteFile(leaf, tileJPEG(t, color.RGBA{124, 64, 44, 255}), 0o644))

	status, out, errs := twodip("find", leaf, "--wall", dir)
	require.Equal(t, 0, status, errs)
	assert.Contains(t, out, "leaf.jpg, ± 17 (camera only): good for browsing, not for matching")
	assert.Regexp(t, `(?m)^= \d\.\d +2 +1st Quarry Milk → 2nd Lamp Rust `, out)

	// The same for programs, and by a name among the wall's own photos.
	status, out, _ = twodip("find", "2 back.jpg", "--wall", dir, "--json", "--most", "1")
	require.Equal(t, 0, status)
	var got run.Found
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	assert.Equal(t, "2 back.jpg", got.Photo)
	assert.Equal(t, tiles.ClassCamera, got.Class)
	require.Len(t, got.Tiles, 1)
	assert.Equal(t, tiles.Number(2), got.Tiles[0].Tile)
	assert.Less(t, got.Tiles[0].Away, 1.0)
	assert.True(t, got.Tiles[0].Same)
}

func TestFindByWhatIsNoPhoto(t *testing.T) {
	dir := photoWall(t)
	twodip("measure", "--wall", dir)
	status, _, errs := twodip("find", "3.jpg", "--wall", dir)
	assert.Equal(t, 1, status)
	assert.Contains(t, errs, "3.jpg: it is not a picture this program knows")
}
