package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/mark/simulate"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
	"github.com/twodip/twodip/tiles/target"
)

// hungWall is a planned wall of n glazes and a color for each of its tiles.
func hungWall(t *testing.T, n int, r *rand.Rand) (dir string, wall tiles.Wall, colors map[tiles.Number][3]uint8) {
	dir = filepath.Join(t.TempDir(), "wall")
	status, _, errs := twodip("start", dir)
	require.Equal(t, 0, status, errs)
	list := "code,name\n"
	for i := range n {
		list += fmt.Sprintf("G%d,Glaze %d\n", i+1, i+1)
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "content/glazes.csv"), []byte(list), 0o644))
	status, _, errs = twodip("plan", "--wall", dir)
	require.Equal(t, 0, status, errs)
	wall, err := run.Load(folder.At(dir))
	require.NoError(t, err)
	colors = map[tiles.Number][3]uint8{}
	for _, tile := range wall.Tiles {
		for k := range 3 {
			c := colors[tile.Number]
			c[k] = uint8(40 + r.IntN(170))
			colors[tile.Number] = c
		}
	}
	return dir, wall, colors
}

func labOf(c [3]uint8) color.Lab { return color.FromSRGB(c[0], c[1], c[2]) }

// hangAll puts the tiles and their tags on the board; two of them change places.
func hangAll(b target.BoardLayout, colors map[tiles.Number][3]uint8, swapped [2]tiles.Number) *simulate.Scene {
	marks := slices.Clone(b.Marks)
	var blocks []simulate.Block
	for _, p := range b.Places {
		n := p.Tile
		if i := slices.Index(swapped[:], n); i >= 0 {
			n = swapped[1-i]
		}
		tag, c := p.Tag, colors[n]
		tag.Bits = target.Tag(n)
		marks = append(marks, tag)
		blocks = append(blocks, simulate.Block{X: p.Face.X, Y: p.Face.Y, W: p.Face.W, H: p.Face.H, Thick: 6,
			Face: simulate.Mottled(simulate.SRGB(c[0], c[1], c[2]), 4, 0.25, uint64(n))})
	}
	s := simulate.Printed(b.Width, b.Height, simulate.RGB{0.5, 0.45, 0.4}, marks, 0.02)
	s.Beyond, s.Blocks = simulate.RGB{0.6, 0.6, 0.58}, blocks
	return s
}

// One photo of the hung wall: every tile read by its own tag, corrected by four
// tiles of known color, two tiles that changed places told apart, and a tile
// under glare left out by name.
func TestTheWholeWallIsReadFromOnePhoto(t *testing.T) {
	if testing.Short() {
		t.Skip("a simulated photo takes some seconds")
	}
	glazes, w, h := 4, 2448, 3264
	if os.Getenv("TWODIP_LONG") == "1" {
		glazes, w, h = 10, 3000, 4000
	}
	r := rand.New(rand.NewPCG(11, 11))
	dir, wall, colors := hungWall(t, glazes, r)
	board, err := target.Board(wall)
	require.NoError(t, err)
	scene := hangAll(board, colors, [2]tiles.Number{2, 7})
	c := simulate.Camera{W: w, H: h, F: simulate.Equivalent(26, w, h), Bend: 0.012}
	c.Aim(board.Width, board.Height, 14, 70, 2, 0.95)
	last := board.Places[len(board.Places)-1]
	gx, gy, _ := c.See(last.Face.X+last.Face.W/2, last.Face.Y+last.Face.H/2, 6)
	ex, _, _ := c.See(last.Face.X+last.Face.W*1.5, last.Face.Y+last.Face.H/2, 6)
	px := ex - gx // width of a tile
	l := simulate.Light{Across: 1.6, Way: 200, Sun: [2]float64{0.5, 0.7}, Cast: simulate.RGB{1.12, 1, 0.8}, Blur: 1, Noise: 0.015, Curve: 0.3, Level: 0.6, Flare: 0.003,
		Glare: []simulate.Glare{{X: gx / float64(w), Y: gy / float64(h), Radius: 0.25 * px / float64(w), Strength: 6}}}
	data := simulate.JPEG(simulate.Photo(scene, c, l, r, false), 90)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "tiles/photos/wall.jpg"), data, 0o644))
	if keep := os.Getenv("TWODIP_KEEP"); keep != "" {
		require.NoError(t, os.WriteFile(filepath.Join(keep, "wall.jpg"), data, 0o644))
	}
	known := knownColors(t, dir, wall, colors)

	status, out, errs := twodip("measure", "--wall", dir)
	require.Equal(t, 0, status, out+errs)
	t.Log(out + errs)
	assert.Contains(t, errs, "tile 7 hangs where tile 2 belongs: it was read as tile 7")
	assert.Contains(t, errs, "tile "+last.Tile.String()+" left out")
	if keep := os.Getenv("TWODIP_KEEP"); keep != "" {
		sheet, err := os.ReadFile(filepath.Join(dir, "build/contact.html"))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(keep, "contact.html"), sheet, 0o644))
	}
	compare(t, dir, wall, colors, known, last.Tile)
}

// knownColors types the color of four tiles in, as from an instrument: the
// first singles and, to make four, the first pairs.
func knownColors(t *testing.T, dir string, wall tiles.Wall, colors map[tiles.Number][3]uint8) map[tiles.Number]bool {
	known := map[tiles.Number]bool{}
	table := "tile,zone,l,a,b\n"
	for _, zone := range []tiles.Zone{tiles.ZoneWhole, tiles.ZoneOverlap} {
		for _, tile := range wall.Tiles[:len(wall.Tiles)-1] {
			if len(known) < 4 && tile.Own() && tile.Single() == (zone == tiles.ZoneWhole) {
				lab := labOf(colors[tile.Number])
				table += fmt.Sprintf("%s,%s,%.2f,%.2f,%.2f\n", tile.Number, zone, lab.L, lab.A, lab.B)
				known[tile.Number] = true
			}
		}
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "tiles/measured.csv"), []byte(table), 0o644))
	return known
}

func compare(t *testing.T, dir string, wall tiles.Wall, colors map[tiles.Number][3]uint8, known map[tiles.Number]bool, hidden tiles.Number) {
	rs, err := record.ReadReadings(folder.At(dir))
	require.NoError(t, err)
	rs = slices.DeleteFunc(rs, func(r tiles.Reading) bool { return r.Photo != "wall.jpg" })
	var off []float64
	held, missing := 0, []string{}
	for _, tile := range wall.Tiles {
		if known[tile.Number] || tile.Number == hidden || !tile.Own() {
			continue
		}
		got, ok := tiles.ColorOf(rs, tile.Number)
		if !ok {
			missing = append(missing, tile.Number.String())
			continue
		}
		d := color.DE00(color.Lab{L: got.L, A: got.A, B: got.B}, labOf(colors[tile.Number]))
		off = append(off, d)
		t.Logf("tile %s: %.1f %.1f %.1f true %.1f, off %.1f ± %.1f kept %.2f", tile.Number, got.L, got.A, got.B, labOf(colors[tile.Number]), d, got.Doubt, got.Kept)
		if d <= got.Doubt {
			held++
		}
		assert.Equal(t, tiles.ClassControls, got.Class)
		assert.Equal(t, "marks", got.Found)
	}
	slices.Sort(off)
	require.NotEmpty(t, off)
	t.Logf("%d tiles: ΔE00 median %.2f, most %.2f; inside their doubt %d; not read: %s", len(off), off[len(off)/2], off[len(off)-1], held, strings.Join(missing, " "))
	assert.Empty(t, missing)
	assert.Less(t, off[len(off)/2], 2.0, "median")
	assert.GreaterOrEqual(t, float64(held), 0.9*float64(len(off)))
}
