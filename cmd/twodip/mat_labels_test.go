package main

import (
	"fmt"
	"image"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/mark/simulate"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
	"github.com/twodip/twodip/tiles/target"
)

// Labels as they are printed, on the mat as it is printed, photographed from
// anywhere in the range that counts as standard: the command reads 99 % of their
// codes, and none for another's. Two photos by default; TWODIP_LONG=1 takes 40
// of each label.
func TestPrintedLabelsAreReadOnThePrintedMat(t *testing.T) {
	if testing.Short() {
		t.Skip("simulated photos take some seconds")
	}
	n := 1
	if os.Getenv("TWODIP_LONG") == "1" {
		n = 40
	}
	read, photos := 0, 0
	for _, kind := range []struct{ paper, labels, address string }{
		{"letter", "letter-30", "https://glazes.example.org"},
		{"letter", "letter-80", ""},
		{"a4", "a4-21", "https://studio.example/wall"},
		{"a4", "a4-65", "https://studio.example/wall"},
	} {
		if n == 1 && kind.address == "https://studio.example/wall" {
			continue
		}
		ok := matRound(t, kind.paper, kind.labels, kind.address, n)
		t.Logf("%s: %d of %d photos say their tile", kind.labels, ok, n)
		read, photos = read+ok, photos+n
	}
	require.GreaterOrEqual(t, float64(read), 0.99*float64(photos))
}

// matRound prints a wall's mat and labels, photographs n of them, measures, and
// counts the photos that were taken for the tile they show.
func matRound(t *testing.T, paper, labels, address string, n int) (right int) {
	dir := filepath.Join(t.TempDir(), "wall")
	typed := func(args ...string) string {
		status, out, errs := twodip(args...)
		require.Equal(t, 0, status, errs)
		return out
	}
	typed("start", dir)
	path := filepath.Join(dir, "wall.yaml")
	yaml, err := os.ReadFile(path)
	require.NoError(t, err)
	text := strings.NewReplacer(`address: ""`, fmt.Sprintf("address: %q", address), "paper: letter", "paper: "+paper, `sheet: ""`, "sheet: "+labels).Replace(string(yaml))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	list := "code,name\n"
	for c := 'A'; c <= 'L'; c++ {
		list += fmt.Sprintf("%c,Invented %c\n", c, c)
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "content/glazes.csv"), []byte(list), 0o644))
	_ = os.Remove(filepath.Join(dir, "content/glazes.yaml"))
	typed("plan", "--wall", dir)
	typed("print", "mat", "labels", "--wall", dir)
	wall, err := run.Load(folder.At(dir))
	require.NoError(t, err)
	page, err := target.Mat(wall.Settings)
	require.NoError(t, err)
	form, err := sheet.FindLabelSheet(wall.Settings)
	require.NoError(t, err)
	mat := rendered(t, filepath.Join(dir, "build/print/mat.pdf"), "300")
	printed := filepath.Join(dir, "build/print/labels.pdf")

	shows := map[string]tiles.Number{}
	for i := range n {
		r := rand.New(rand.NewPCG(uint64(i), uint64(len(labels)+len(address))))
		at := r.IntN(min(len(wall.Tiles), form.Columns*form.Rows))
		photo := matShot(r, page, mat, labelOf(t, printed, form, at), form)
		name := fmt.Sprintf("IMG_%04d.jpg", i)
		shows[name] = wall.Tiles[at].Number
		require.NoError(t, os.WriteFile(filepath.Join(dir, "tiles/photos", name), photo, 0o644))
		if keep := os.Getenv("TWODIP_KEEP"); keep != "" {
			require.NoError(t, os.WriteFile(filepath.Join(keep, labels+"-"+name), photo, 0o644))
		}
	}
	_, out, errs := twodip("measure", "--wall", dir)
	rs, err := record.ReadReadings(folder.At(dir))
	require.NoError(t, err)
	said := map[string]tiles.Number{}
	for _, one := range rs {
		said[one.Photo] = one.Tile
	}
	for name, want := range shows {
		got, ok := said[name]
		if !ok {
			t.Logf("%s of tile %d is not read", name, want)
			continue
		}
		require.Equal(t, want, got, name)
		right++
	}
	if right < n {
		t.Log(out, errs)
	}
	return right
}

// matShot photographs a tile and its label on the mat, 12 megapixels, in black
// and white: the code is not read in color.
func matShot(r *rand.Rand, page target.Page, mat, label image.Image, s tiles.LabelSheet) []byte {
	scene := &simulate.Scene{Width: page.Width, Height: page.Height, Ground: simulate.Picture(mat, page.Width, page.Height), Beyond: simulate.RGB{float32(0.05 + 0.5*r.Float64()), 0.25, 0.2}}
	tone := simulate.SRGB(uint8(50+r.IntN(150)), uint8(50+r.IntN(150)), uint8(50+r.IntN(150)))
	scene.Blocks = []simulate.Block{
		{X: page.Tile.X + r.NormFloat64(), Y: page.Tile.Y + r.NormFloat64(), W: page.Tile.W, H: page.Tile.H, Thick: 6, Turn: 2 * r.NormFloat64(),
			Face: simulate.Mottled(tone, 4, 0.3, r.Uint64())},
		{X: page.Label.X + (page.Label.W-s.Width)/2 + 2*r.NormFloat64(), Y: page.Label.Y + (page.Label.H-s.Height)/2, W: s.Width, H: s.Height,
			Thick: 0.1, Turn: 5 * r.NormFloat64(), Fine: true, Face: simulate.Picture(label, s.Width, s.Height)},
	}
	c := simulate.Random(r, 4000, 3000, page.Width, page.Height, 35, 0.02)
	l := simulate.Light{Across: 1 + r.Float64(), Way: 360 * r.Float64(), Sun: [2]float64{r.Float64(), r.Float64() - 1}, Blur: 0.6 + 1.4*r.Float64(),
		Noise: 0.01 + 0.02*r.Float64(), Flare: 0.01, Quality: 80 + r.IntN(16), Curve: 0.5 * r.Float64(), Level: float32(0.5 + 0.35*r.Float64())}
	return simulate.JPEG(simulate.Photo(scene, c, l, r, true), l.Quality)
}
