package measure

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/mark/simulate"
	"github.com/twodip/twodip/tiles/target"
)

// smallWall is three glazes and their nine tiles, all hung.
func smallWall() tiles.Wall {
	w := tiles.Wall{Settings: tiles.Settings{Paper: "a4", Tile: tiles.Shape{Width: 50, Height: 80, Thickness: 6}}}
	for _, code := range []string{"A", "B", "C"} {
		w.Glazes = append(w.Glazes, tiles.Glaze{Code: code})
	}
	for _, a := range w.Glazes {
		for _, b := range w.Glazes {
			p := tiles.Pair{First: a.Code, Second: b.Code}
			if a.Code == b.Code {
				p.Second = ""
			}
			w.Tiles = append(w.Tiles, tiles.Tile{Number: tiles.Number(len(w.Tiles) + 1), Pair: p, Status: tiles.Fired})
		}
	}
	return w
}

var rust = simulate.SRGB(150, 80, 50)

// shoot photographs a scene from nearly straight above at some 4 megapixels.
func shoot(s *simulate.Scene, w, h int) []byte {
	c := simulate.Camera{W: w, H: h, F: simulate.Equivalent(26, w, h), Bend: 0.005}
	c.Aim(s.Width, s.Height, 8, 30, 3, 0.96)
	l := simulate.Light{Across: 1.3, Way: 20, Blur: 0.8, Noise: 0.01}
	return simulate.JPEG(simulate.Photo(s, c, l, rand.New(rand.NewPCG(1, 1)), false), 92)
}

// onMat is a photo of a rust tile on the mat with the label of tile n; 0 = none.
func onMat(t *testing.T, n tiles.Number, marks int) []byte { return onMatOf(t, n, marks, rust) }

func onMatOf(t *testing.T, n tiles.Number, marks int, glaze simulate.RGB) []byte {
	page, err := target.Mat(smallWall().Settings)
	require.NoError(t, err)
	s := simulate.Printed(page.Width, page.Height, simulate.White, page.Marks[:marks], 0)
	s.Beyond = simulate.RGB{0.2, 0.2, 0.2}
	s.Blocks = []simulate.Block{{X: page.Tile.X, Y: page.Tile.Y, W: page.Tile.W, H: page.Tile.H, Thick: 6, Face: simulate.Mottled(glaze, 4, 0.2, 1)}}
	if n != 0 {
		s.Blocks = append(s.Blocks, labelBlock(t, n, page.Label.X+5, page.Label.Y+3, 70))
	}
	return shoot(s, 1700, 2300)
}

func readPhoto(t *testing.T, data []byte, name string) (Result, error) {
	t.Helper()
	var r Reader
	return r.Read(data, Ask{Wall: smallWall(), Photo: name, View: true})
}

func TestTheLabelSaysWhichTileLiesOnTheMat(t *testing.T) {
	data := onMat(t, 3, 4)
	for _, name := range []string{"IMG_0012.jpg", "3.jpg"} {
		res, err := readPhoto(t, data, name)
		require.NoError(t, err)
		require.Equal(t, tiles.Number(3), res.Readings[0].Tile)
		require.Equal(t, FoundMarks, res.Readings[0].Found)
		require.Empty(t, res.Notes)
		require.Len(t, res.View.Faces, 1)
		require.NotEmpty(t, res.View.Paper)
	}
	res, err := readPhoto(t, data, "8.jpg")
	require.NoError(t, err)
	require.Equal(t, tiles.Number(3), res.Readings[0].Tile)
	require.Equal(t, []string{"the photo is named for tile 8 but shows the label of tile 3: the label was believed"}, res.Notes)
}

// A tile of the paper's own color is read where its place is printed, and the
// reading says so.
func TestATileThatDoesNotStandOutFromTheMatIsSaid(t *testing.T) {
	page, err := target.Mat(smallWall().Settings)
	require.NoError(t, err)
	s := simulate.Printed(page.Width, page.Height, simulate.White, page.Marks[:], 0)
	s.Beyond = simulate.RGB{0.2, 0.2, 0.2}
	res, err := readPhoto(t, shoot(s, 1700, 2300), "3.jpg")
	require.NoError(t, err)
	require.Contains(t, res.Readings[0].Warning, "do not stand out from the mat")
	res, err = readPhoto(t, onMatOf(t, 3, 4, rust), "3.jpg")
	require.NoError(t, err)
	require.Empty(t, res.Readings[0].Warning)
}

func TestAMatWithoutALabelTakesThePhotosName(t *testing.T) {
	data := onMat(t, 0, 4)
	res, err := readPhoto(t, data, "8 again.jpg")
	require.NoError(t, err)
	require.Equal(t, tiles.Number(8), res.Readings[0].Tile)
	_, err = readPhoto(t, data, "IMG_1.jpg")
	require.ErrorContains(t, err, "tiles/photos/IMG_1.jpg: it shows the mat, but the code of the label cannot be read")
}

func TestTooFewMarksAreSaid(t *testing.T) {
	data := onMat(t, 0, 2)
	res, err := readPhoto(t, data, "8.jpg")
	require.NoError(t, err)
	require.NotEqual(t, FoundMarks, res.Readings[0].Found)
	require.Contains(t, strings.Join(res.Notes, " "), "2 of the mat's 4 marks can be read, and it takes 3; keep every mark in the picture")
	_, err = readPhoto(t, data, "IMG_1.jpg")
	require.ErrorContains(t, err, "2 of the mat's 4 marks can be read")
}

// onBoard is a photo of the board; without says whose tag is missing, turned
// whose hangs upside down.
func onBoard(t *testing.T, without, turned tiles.Number) []byte {
	b, err := target.Board(smallWall())
	require.NoError(t, err)
	marks := append([]target.Mark{}, b.Marks...)
	var blocks []simulate.Block
	for _, p := range b.Places {
		if p.Tile == turned {
			p.Tag.Bits = p.Tag.Bits.Turn().Turn()
		}
		if p.Tile != without {
			marks = append(marks, p.Tag)
		}
		blocks = append(blocks, simulate.Block{X: p.Face.X, Y: p.Face.Y, W: p.Face.W, H: p.Face.H, Thick: 6, Face: simulate.Mottled(rust, 4, 0.2, uint64(p.Tile))})
	}
	s := simulate.Printed(b.Width, b.Height, simulate.RGB{0.5, 0.5, 0.5}, marks, 0)
	s.Blocks = blocks
	return shoot(s, 1700, 2300)
}

func TestTheBoardsTilesAreReadByTheirTags(t *testing.T) {
	res, err := readPhoto(t, onBoard(t, 5, 2), "wall.jpg")
	require.NoError(t, err)
	seen := map[tiles.Number]bool{}
	for _, r := range res.Readings {
		seen[r.Tile] = true
	}
	require.Len(t, seen, 7)
	require.False(t, seen[5] || seen[2])
	notes := strings.Join(res.Notes, "\n")
	require.Contains(t, notes, "tile 5 left out: the tag under it cannot be read")
	require.Contains(t, notes, "tile 2 hangs upside down: turn it")
	require.Len(t, res.View.Faces, 7)
}

// A tile whose tag cannot be read is read all the same where its outline was
// drawn by hand.
func TestAnOutlineDrawnOnTheBoardIsRespected(t *testing.T) {
	wall := smallWall()
	wall.Hand = []tiles.ByHand{
		{Photo: "wall.jpg", Tile: 5, Drawn: true, Outline: [4][2]float64{{800, 1000}, {900, 1000}, {900, 1200}, {800, 1200}}},
		{Photo: "other.jpg", Tile: 2, Drawn: true, Outline: [4][2]float64{{0, 0}, {9, 0}, {9, 9}, {0, 9}}},
	}
	var r Reader
	res, err := r.Read(onBoard(t, 5, 2), Ask{Wall: wall, Photo: "wall.jpg"})
	require.NoError(t, err)
	found := map[tiles.Number]string{}
	for _, r := range res.Readings {
		found[r.Tile] = r.Found
	}
	require.Len(t, found, 8)
	require.Equal(t, FoundByHand, found[5])
	require.Equal(t, FoundMarks, found[1])
}

func TestListSaysNamesInWords(t *testing.T) {
	require.Equal(t, "tile 7", list("tile", []string{"7"}))
	require.Equal(t, "tiles 7 and 8", list("tile", []string{"7", "8"}))
	require.Equal(t, "tiles 7, 8 and 12", list("tile", []string{"7", "8", "12"}))
}
