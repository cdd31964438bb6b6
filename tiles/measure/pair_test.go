package measure

import (
	"bytes"
	"image"
	"image/jpeg"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/mark/simulate"
	"github.com/twodip/twodip/tiles/target"
)

// labelBlock is a label of 70 × 30 mm, or of a width, laid on a place.
func labelBlock(t *testing.T, n tiles.Number, x, y, wide float64) simulate.Block {
	code, err := target.NewQR(n.Payload(""))
	require.NoError(t, err)
	return simulate.Block{X: x, Y: y, W: wide, H: 30, Thick: 0.1, Fine: true, Face: simulate.Label(wide, 30, 26, code.Modules(), code.Dark)}
}

// onPairMat is a photo of two tiles side by side, each over its label; 0 = none.
func onPairMat(t *testing.T, left, right tiles.Number) []byte {
	page, err := target.PairMat(smallWall().Settings)
	require.NoError(t, err)
	s := simulate.Printed(page.Width, page.Height, simulate.White, page.Marks[:], 0)
	s.Beyond = simulate.RGB{0.2, 0.2, 0.2}
	for i, n := range []tiles.Number{left, right} {
		at := page.Spots()[i]
		glaze := []simulate.RGB{rust, simulate.SRGB(60, 90, 110)}[i]
		s.Blocks = append(s.Blocks, simulate.Block{X: at.Tile.X + 1, Y: at.Tile.Y - 1, W: at.Tile.W, H: at.Tile.H, Thick: 6, Face: simulate.Mottled(glaze, 4, 0.2, 1)})
		if n != 0 {
			s.Blocks = append(s.Blocks, labelBlock(t, n, at.Label.X+5, at.Label.Y+3, 70))
		}
	}
	return shoot(s, 1700, 2300)
}

// Two tiles on the mat for two are read from one photo, each by its own label,
// and the photo is not measured again.
func TestTwoTilesAreReadSideBySide(t *testing.T) {
	data := onPairMat(t, 3, 7)
	res, err := readPhoto(t, data, "IMG_0012.jpg")
	require.NoError(t, err)
	require.Len(t, res.Readings, 2)
	require.Empty(t, res.Notes)
	one, err := readPhoto(t, onMat(t, 3, 4), "IMG_0013.jpg")
	require.NoError(t, err)
	for i, n := range []tiles.Number{3, 7} {
		r := res.Readings[i]
		assert.Equal(t, n, r.Tile)
		assert.Equal(t, FoundMarks, r.Found)
		assert.Empty(t, r.Warning)
		assert.Equal(t, "white paper", r.Correction)
		assert.Equal(t, r.Hash, Ask{Wall: smallWall(), Photo: "IMG_0012.jpg"}.Hash(Sum(data), res.Readings))
	}
	alone := one.Readings[0]
	assert.Less(t, color.DE00(color.Lab{L: res.Readings[0].L, A: res.Readings[0].A, B: res.Readings[0].B}, color.Lab{L: alone.L, A: alone.A, B: alone.B}), 1.5, "as on the mat for one")
	assert.Len(t, res.View.Faces, 2)
	assert.Len(t, res.Pictures, 4)
}

func TestATileOfTwoWithoutItsLabel(t *testing.T) {
	data := onPairMat(t, 0, 7)
	res, err := readPhoto(t, data, "IMG_1.jpg")
	require.NoError(t, err)
	require.Len(t, res.Readings, 1)
	require.Equal(t, tiles.Number(7), res.Readings[0].Tile)
	require.Contains(t, strings.Join(res.Notes, " "), "only the label of tile 7 can be read on the mat for two tiles: the other tile was left out")
	res, err = readPhoto(t, data, "4 again.jpg")
	require.NoError(t, err)
	require.Len(t, res.Readings, 2, "the name says which the other is")
	require.Equal(t, tiles.Number(4), res.Readings[0].Tile)
	_, err = readPhoto(t, onPairMat(t, 0, 0), "4.jpg")
	require.ErrorContains(t, err, "it shows the mat for two tiles, but neither label can be read")
	_, err = readPhoto(t, onPairMat(t, 4, 4), "IMG_1.jpg")
	require.ErrorContains(t, err, "both labels on the mat for two tiles are of tile 4")
}

// Of two labels on the mat for one tile the one in its place is believed, and said;
// where both lie there, the photo is refused.
func TestTwoLabelsOnTheMatAreSaid(t *testing.T) {
	page, err := target.Mat(smallWall().Settings)
	require.NoError(t, err)
	with := func(labels ...simulate.Block) []byte {
		s := simulate.Printed(page.Width, page.Height, simulate.White, page.Marks[:], 0)
		s.Beyond = simulate.RGB{0.2, 0.2, 0.2}
		s.Blocks = append(labels, simulate.Block{X: page.Tile.X, Y: page.Tile.Y, W: page.Tile.W, H: page.Tile.H, Thick: 6, Face: simulate.Mottled(rust, 4, 0.2, 1)})
		return shoot(s, 1700, 2300)
	}
	in := labelBlock(t, 3, page.Label.X+5, page.Label.Y+3, 40)
	res, err := readPhoto(t, with(in, labelBlock(t, 8, page.Reference.X+5, page.Reference.Y+5, 40)), "IMG_1.jpg")
	require.NoError(t, err)
	require.Equal(t, tiles.Number(3), res.Readings[0].Tile)
	require.Contains(t, res.Notes, "two labels are in the picture, of tile 3 and of tile 8: the one in its place was believed, tile 3")
	_, err = readPhoto(t, with(in, labelBlock(t, 8, page.Label.X+48, page.Label.Y+3, 34)), "IMG_1.jpg")
	require.ErrorContains(t, err, "two labels lie on the mat, of tile")
	res, err = readPhoto(t, with(in), "IMG_1.jpg")
	require.NoError(t, err)
	require.Empty(t, res.Notes)
}

// A mirrored photo, as some phones' front cameras save them, would show first and
// second the wrong way round: it is refused.
func TestAMirroredPhotoIsRefused(t *testing.T) {
	for name, data := range map[string][]byte{"mat": onMat(t, 3, 4), "board": onBoard(t, 0, 0), "two": onPairMat(t, 3, 7)} {
		_, err := readPhoto(t, mirrored(t, data), "7.jpg")
		require.ErrorContains(t, err, "it is mirrored", name)
	}
}

func mirrored(t *testing.T, data []byte) []byte {
	img, err := jpeg.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	b := img.Bounds()
	out := image.NewRGBA(b)
	for y := range b.Dy() {
		for x := range b.Dx() {
			out.Set(b.Dx()-1-x, y, img.At(x, y))
		}
	}
	return simulate.JPEG(out, 92)
}
