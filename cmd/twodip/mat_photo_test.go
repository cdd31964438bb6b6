package main

import (
	"image"
	"image/draw"
	"image/png"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/mark"
	"github.com/twodip/twodip/tiles/mark/simulate"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
	"github.com/twodip/twodip/tiles/target"
)

// rendered is page 1 of a PDF as pixels.
func rendered(t *testing.T, pdf, dpi string, more ...string) image.Image {
	t.Helper()
	bin, err := exec.LookPath("pdftoppm")
	if err != nil {
		if os.Getenv("TWODIP_ALL") == "1" {
			t.Fatal("poppler-utils is not installed, and TWODIP_ALL asks for it")
		}
		t.Skip("poppler-utils is not installed")
	}
	out := filepath.Join(t.TempDir(), "page")
	args := append([]string{"-r", dpi, "-png", "-singlefile"}, more...)
	require.NoError(t, exec.Command(bin, append(args, pdf, out)...).Run())
	f, err := os.Open(out + ".png")
	require.NoError(t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(t, err)
	return img
}

// labelOf is a label of the first sheet, rendered at 600 dpi.
func labelOf(t *testing.T, pdf string, s tiles.LabelSheet, i int) image.Image {
	t.Helper()
	x, y := s.Left+float64(i%s.Columns)*s.PitchX, s.Top+float64(i/s.Columns)*s.PitchY
	dots := func(mm float64) string { return strconv.Itoa(int(mm / 25.4 * 600)) }
	return rendered(t, pdf, "600", "-x", dots(x), "-y", dots(y), "-W", dots(s.Width), "-H", dots(s.Height))
}

// The whole way a user goes: print the mat and the labels, lay a tile, its
// label and a grey card on the mat, photograph it from aside under uneven
// light, and measure. The photo's name says nothing; the label says the tile.
func TestATileOnThePrintedMatIsReadByItsLabel(t *testing.T) {
	if testing.Short() {
		t.Skip("a simulated photo takes some seconds")
	}
	dir := filepath.Join(t.TempDir(), "wall")
	for _, args := range [][]string{{"start", dir}, {"plan", "--wall", dir}, {"print", "mat", "labels", "--wall", dir}} {
		status, _, errs := twodip(args...)
		require.Equal(t, 0, status, errs)
	}
	a := &app{wall: dir}
	wall, err := run.Load(a.folder())
	require.NoError(t, err)
	page, err := target.Mat(wall.Settings)
	require.NoError(t, err)

	mat := rendered(t, filepath.Join(dir, "build/print/mat.pdf"), "300")
	form, err := sheet.FindLabelSheet(wall.Settings)
	require.NoError(t, err)
	label := labelOf(t, filepath.Join(dir, "build/print/labels.pdf"), form, 4)
	photo := photographed(page, mat, label)
	path := filepath.Join(dir, "tiles/photos/IMG_2041.jpg")
	require.NoError(t, os.WriteFile(path, photo, 0o644))
	if keep := os.Getenv("TWODIP_KEEP"); keep != "" {
		require.NoError(t, os.WriteFile(filepath.Join(keep, "mat.jpg"), photo, 0o644))
	}

	status, out, errs := twodip("measure", "--wall", dir)
	require.Equal(t, 0, status, out+errs)
	rs, err := record.ReadReadings(folder.At(dir))
	require.NoError(t, err)
	got, ok := tiles.ColorOf(rs, 5)
	require.True(t, ok, "tile 5 has a reading: %v", rs)
	assert.Equal(t, "marks", got.Found)
	assert.Equal(t, tiles.ClassGrey, got.Class, out+errs)
	off := color.DE00(color.Lab{L: got.L, A: got.A, B: got.B}, color.FromSRGB(120, 70, 50))
	t.Logf("read %.1f %.1f %.1f, %.1f off, ± %.1f", got.L, got.A, got.B, off, got.Doubt)
	assert.Less(t, off, got.Doubt)
	assert.Less(t, off, 4.0)
	contact, err := os.ReadFile(filepath.Join(dir, "build/contact.html"))
	require.NoError(t, err)
	assert.Contains(t, string(contact), `data-photo="IMG_2041.jpg"`)

	setByHand(t, dir)
}

// setByHand sets another number and a small outline for the photo, and finds
// both respected, now and in later runs.
func setByHand(t *testing.T, dir string) {
	hand := "photo,tile,outline,note\nIMG_2041.jpg,7,1800 700 2200 700 2200 1100 1800 1100,\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "tiles/by-hand.csv"), []byte(hand), 0o644))
	for range 2 {
		status, out, errs := twodip("measure", "--wall", dir)
		require.Equal(t, 0, status, out+errs)
		rs, err := record.ReadReadings(folder.At(dir))
		require.NoError(t, err)
		_, stays := tiles.ColorOf(rs, 5)
		assert.False(t, stays)
		got, ok := tiles.ColorOf(rs, 7)
		require.True(t, ok, "%v", rs)
		assert.Equal(t, "by hand", got.Found)
		assert.Equal(t, "grey card and paper", got.Correction)
	}
}

// The marks of the printed mat stand where package target says, to a tenth of
// a millimetre, as seen on the page by the program's own eyes.
func TestThePrintedMarksStandWhereTheyShould(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "wall")
	for _, args := range [][]string{{"start", dir}, {"plan", "--wall", dir}, {"print", "mat", "--wall", dir}} {
		status, _, errs := twodip(args...)
		require.Equal(t, 0, status, errs)
	}
	wall, err := run.Load(folder.At(dir))
	require.NoError(t, err)
	page, err := target.Mat(wall.Settings)
	require.NoError(t, err)
	img := rendered(t, filepath.Join(dir, "build/print/mat.pdf"), "300")
	gray := image.NewGray(img.Bounds())
	draw.Draw(gray, gray.Rect, img, img.Bounds().Min, draw.Src)
	found, _ := mark.Find(mark.Gray(gray))
	require.Len(t, found, 4)
	for i, f := range found {
		require.Equal(t, page.Marks[i].ID, f.ID)
		for k, want := range page.Marks[i].Corners() {
			assert.InDelta(t, want[0], f.Quad[k].X/300*25.4, 0.1)
			assert.InDelta(t, want[1], f.Quad[k].Y/300*25.4, 0.1)
		}
	}
}

func photographed(page target.Page, mat, label image.Image) []byte {
	scene := &simulate.Scene{Width: page.Width, Height: page.Height, Ground: simulate.Picture(mat, page.Width, page.Height), Beyond: simulate.RGB{0.25, 0.18, 0.1}}
	scene.Blocks = []simulate.Block{
		{X: page.Tile.X + 1.5, Y: page.Tile.Y - 1, W: page.Tile.W, H: page.Tile.H, Thick: 6, Turn: 2,
			Face: simulate.Mottled(simulate.SRGB(120, 70, 50), 4, 0.3, 7)},
		{X: page.Reference.X + 8, Y: page.Reference.Y + 10, W: page.Reference.W - 16, H: page.Reference.H - 20, Thick: 1,
			Face: func(x, y float64) simulate.RGB { return simulate.Grey }},
		{X: page.Label.X + 8, Y: page.Label.Y + 4, W: 66.675, H: 25.4, Thick: 0.1, Turn: -4, Fine: true,
			Face: simulate.Picture(label, 66.675, 25.4)},
	}
	r := rand.New(rand.NewPCG(5, 5))
	c := simulate.Camera{W: 4000, H: 3000, F: simulate.Equivalent(26, 4000, 3000), Bend: 0.01}
	c.Aim(page.Width, page.Height, 15, 40, 94, 0.95)
	l := simulate.Light{Across: 1.5, Way: 30, Sun: [2]float64{0.6, -0.4}, Cast: simulate.RGB{1.1, 1, 0.85}, Blur: 1.2, Noise: 0.015, Quality: 90}
	return simulate.JPEG(simulate.Photo(scene, c, l, r, false), 90)
}
