package measure

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content/demo"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/mark/simulate"
	"github.com/twodip/twodip/tiles/target"
)

// The readings of a few made photos and of the shared real ones are written
// down beside the method that made them: whoever changes a reading, by however
// little, must change the method, so that walls measured before are measured
// again. TWODIP_UPDATE=1 writes them down anew.
func TestReadingsChangeOnlyWithTheMethod(t *testing.T) {
	if testing.Short() {
		t.Skip("some of the photos are simulated, which takes seconds")
	}
	if runtime.GOARCH != "amd64" {
		t.Skip("other processors fuse additions and multiplications, so last digits differ")
	}
	holdPinned(t, "made", pinMade(t))
	if os.Getenv("TWODIP_LONG") == "1" {
		holdPinned(t, "shared", pinShared(t))
	}
}

// holdPinned compares what is read now with what is written down.
func holdPinned(t *testing.T, name string, now string) {
	t.Helper()
	path := filepath.Join("testdata", name+" readings.txt")
	now = "method " + method + "\n" + now
	if os.Getenv("TWODIP_UPDATE") == "1" {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(now), 0o644))
		return
	}
	was, err := os.ReadFile(path)
	require.NoError(t, err)
	if string(was) == now {
		return
	}
	before, after := strings.Split(string(was), "\n"), strings.Split(now, "\n")
	if before[0] == after[0] {
		t.Error("readings have changed and the method has not: give method in ask.go the next number")
	}
	for i := range min(len(before), len(after)) {
		if before[i] != after[i] {
			assert.Equal(t, before[i], after[i], "first difference, line %d; TWODIP_UPDATE=1 accepts them all", i+1)
			return
		}
	}
	assert.Len(t, after, len(before), "lines")
}

// pinMade reads photos of the invented studio, of the mat and of the board.
func pinMade(t *testing.T) string {
	var out strings.Builder
	pinDemo(t, &out)
	wall := smallWall()
	pin(&out, "mat", onMat(t, 3, 4), Ask{Wall: wall, Photo: "3.jpg"})
	pin(&out, "mat, three marks", onMat(t, 0, 3), Ask{Wall: wall, Photo: "3.jpg"})
	pin(&out, "mat, two marks", onMat(t, 0, 2), Ask{Wall: wall, Photo: "3.jpg"})
	pin(&out, "mat and grey card", onMatBeside(t, simulate.Grey), Ask{Wall: wall, Photo: "3.jpg"})
	chart := published24(t)
	pin(&out, "mat and chart", onMatBesideChart(t, chart), Ask{Wall: wall, Photo: "3.jpg", Patches: chart})
	pin(&out, "board", onBoard(t, 5, 2), Ask{Wall: wall, Photo: "wall.jpg"})
	for n, lab := range map[tiles.Number]color.Lab{1: {L: 40, A: 20, B: 18}, 3: {L: 41, A: 21, B: 18}, 4: {L: 42, A: 20, B: 19}, 9: {L: 40, A: 22, B: 20}} {
		wall.Readings = append(wall.Readings, tiles.Reading{Tile: n, Zone: tiles.ZoneWhole, L: lab.L, A: lab.A, B: lab.B})
	}
	pin(&out, "board and controls", onBoard(t, 0, 0), Ask{Wall: wall, Photo: "wall.jpg"})
	return out.String()
}

// pinDemo reads the invented studio's photos by their grey sheet, and without.
func pinDemo(t *testing.T, out *strings.Builder) {
	w := tiles.Wall{}
	w.Settings.Tile = tiles.Shape{Width: 54, Height: 90, Bare: 9, Layout: tiles.LayoutEnds, FirstDip: 60, SecondDip: 60}
	for i, p := range []tiles.Pair{{First: "QM"}, {First: "QM", Second: "LR"}, {First: "PT", Second: "SB"}, {First: "SB", Second: "SB"}} {
		w.Tiles = append(w.Tiles, tiles.Tile{Number: tiles.Number(i + 1), Pair: p})
	}
	sheet := []color.Patch{{Lab: color.Lab{L: 64}, Neutral: true}}
	studio := demo.NewStudio(w.Settings.Tile, demo.Seed)
	for _, tile := range w.Tiles {
		var data bytes.Buffer
		_, err := studio.JPEG(&data, tile)
		require.NoError(t, err)
		ask := Ask{Wall: w, Photo: tile.Number.String() + ".jpg"}
		pin(out, "studio", data.Bytes(), ask)
		ask.Patches, ask.Wall.Photo.Reference = sheet, refGround
		pin(out, "studio and sheet", data.Bytes(), ask)
	}
}

// pinShared reads every photo of ../shared/photos as a tile's, with and without
// a chart's patches, and as find does.
func pinShared(t *testing.T) string {
	var out strings.Builder
	root := sharedFolder(t, "photos")
	chart := published24(t)
	require.NoError(t, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.Contains(".jpg.png.tif.heic", strings.ToLower(filepath.Ext(path))) {
			return err
		}
		data, err := os.ReadFile(path)
		name, _ := filepath.Rel(root, path)
		ask := Ask{Wall: smallWall(), Photo: "2.jpg"}
		pin(&out, name, data, ask)
		ask.Patches = chart
		pin(&out, name+" and chart", data, ask)
		var r Reader
		got, notes, glanceErr := r.Glance(data, ask)
		fmt.Fprintf(&out, "%s at a glance: %v %q %v\n", name, got, notes, glanceErr)
		return err
	}))
	return out.String()
}

// pin writes down all that a photo gives: its readings to the last digit, and
// the hashes of its pictures and its view.
func pin(out *strings.Builder, name string, data []byte, ask Ask) {
	ask.View = true
	var r Reader
	res, err := r.Read(data, ask)
	fmt.Fprintf(out, "%s, %s: %v %q\n", name, ask.Photo, err, res.Notes)
	if err != nil {
		return
	}
	for _, got := range res.Readings {
		got.Hash = ""
		fmt.Fprintf(out, "  %v\n", got)
	}
	for _, p := range res.Pictures {
		fmt.Fprintf(out, "  picture %d %s\n", p.Width, Sum(p.JPEG)[:16])
	}
	fmt.Fprintf(out, "  view %s\n", Sum(fmt.Append(nil, *res.View))[:16])
}

// onMatBeside is a photo of a tile on the mat beside a card.
func onMatBeside(t *testing.T, card simulate.RGB) []byte {
	return onMatWith(t, 80, func(x, y float64) simulate.RGB { return card })
}

// onMatBesideChart is a photo of a tile on the mat beside a chart of 4 × 6.
func onMatBesideChart(t *testing.T, ps []color.Patch) []byte {
	return onMatWith(t, 40, func(x, y float64) simulate.RGB {
		column, row := int(x/10), int(y/10)
		inX, inY := x/10-float64(column), y/10-float64(row)
		if inX < 0.1 || inX > 0.9 || inY < 0.1 || inY > 0.9 || column > 5 || row > 3 {
			return simulate.Ink
		}
		r, g, b := ps[row*6+column].Lab.XYZ().LinearSRGB()
		return simulate.RGB{float32(r), float32(g), float32(b)}
	})
}

// onMatInShadow is a photo of a tile and a grey card on the mat, the tile beyond
// the edge of a shadow and the card not.
func onMatInShadow(t *testing.T) []byte {
	page, err := target.Mat(smallWall().Settings)
	require.NoError(t, err)
	shade := func(x float64, c simulate.RGB) simulate.RGB {
		if x > page.Reference.X-10 {
			return c
		}
		return simulate.RGB{0.6 * c[0], 0.6 * c[1], 0.6 * c[2]}
	}
	s := simulate.Printed(page.Width, page.Height, simulate.White, page.Marks[:], 0)
	ground := s.Ground
	s.Ground = func(x, y float64) simulate.RGB { return shade(x, ground(x, y)) }
	face := simulate.Mottled(rust, 4, 0.2, 1)
	s.Beyond = simulate.RGB{0.2, 0.2, 0.2}
	s.Blocks = []simulate.Block{
		{X: page.Tile.X, Y: page.Tile.Y, W: page.Tile.W, H: page.Tile.H, Thick: 6, Face: func(x, y float64) simulate.RGB { return shade(0, face(x, y)) }},
		{X: page.Reference.X + 5, Y: page.Reference.Y + 5, W: 60, H: 80, Thick: 1, Face: func(x, y float64) simulate.RGB { return simulate.Grey }},
	}
	return shoot(s, 1700, 2300)
}

func onMatWith(t *testing.T, height float64, card func(x, y float64) simulate.RGB) []byte {
	page, err := target.Mat(smallWall().Settings)
	require.NoError(t, err)
	s := simulate.Printed(page.Width, page.Height, simulate.White, page.Marks[:], 0)
	s.Beyond = simulate.RGB{0.2, 0.2, 0.2}
	s.Blocks = []simulate.Block{
		{X: page.Tile.X, Y: page.Tile.Y, W: page.Tile.W, H: page.Tile.H, Thick: 6, Face: simulate.Mottled(rust, 4, 0.2, 1)},
		{X: page.Reference.X + 5, Y: page.Reference.Y + 5, W: 60, H: height, Thick: 1, Face: card},
	}
	return shoot(s, 1700, 2300)
}

// published24 is the published values of the 24-patch chart, D50 (see
// SOURCE.txt beside the table).
func published24(t *testing.T) (out []color.Patch) {
	f, err := os.Open(filepath.Join(sharedFolder(t, "reference"), "colorchecker", "colorchecker_xyY_Lab.csv"))
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	for _, r := range rows {
		if r[0] != "ColorChecker24 - After November 2014" {
			continue
		}
		var v [3]float64
		for i := range v {
			v[i], err = strconv.ParseFloat(r[6+i], 64)
			require.NoError(t, err)
		}
		c := color.Lab{L: v[0], A: v[1], B: v[2]}
		out = append(out, color.Patch{Name: r[2], Lab: c, Neutral: c.SeemsNeutral()})
	}
	return out
}

// sharedFolder is a folder of ../shared beside the checkout.
func sharedFolder(t *testing.T, name string) string {
	t.Helper()
	dir, err := os.Getwd()
	require.NoError(t, err)
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		} else if !errors.Is(err, fs.ErrNotExist) {
			require.NoError(t, err)
		}
		dir = filepath.Dir(dir)
	}
	dir = filepath.Join(dir, "..", "shared", name)
	if _, err := os.Stat(dir); err != nil {
		t.Skipf("../shared/%s is not on this machine", name)
	}
	return dir
}
