package record

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

func byHand(t *testing.T, text string) ([]tiles.ByHand, error) {
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "tiles"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "tiles", "by-hand.csv"), []byte(text), 0o644))
	return ReadByHand(folder.At(dir))
}

func TestReadByHand(t *testing.T) {
	got, err := byHand(t, "photo,tile,outline,note\nIMG_1.jpg,7,,the label was under the tile\na\\b.jpg,,\"10 20, 110 22, 108 200, 9 199\",\n")
	require.NoError(t, err)
	require.Equal(t, []tiles.ByHand{
		{Photo: "IMG_1.jpg", Tile: 7, Line: 2},
		{Photo: "a/b.jpg", Drawn: true, Outline: [4][2]float64{{10, 20}, {110, 22}, {108, 200}, {9, 199}}, Line: 3},
	}, got)
	none, err := ReadByHand(folder.At(t.TempDir()))
	require.NoError(t, err)
	require.Empty(t, none)
}

func TestByHandSaysWhatIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"photo,tile,outline\n,7,\n":                         "photo is empty",
		"photo,tile,outline\na.jpg,,\n":                     "neither a tile nor an outline",
		"photo,tile,outline\na.jpg,x,\n":                    "not a tile number",
		"photo,tile,outline\na.jpg,,1 2 3\n":                "has 3 numbers, not 8",
		"photo,tile,outline\na.jpg,,0 0 0 9 9 9 9 0\n":      "do not go round clockwise",
		"photo,tile,outline\na.jpg,,0 0 NaN 0 9 9 0 9\n":    "by-hand.csv:2",
		"photo,tile,outline\na.jpg,,0 0 10 0 1e999 9 0 9\n": "by-hand.csv:2",
	} {
		_, err := byHand(t, text)
		require.ErrorContains(t, err, want, "%q", text)
	}
}
