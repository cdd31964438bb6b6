package site

import (
	"fmt"
	"image"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// An invented wall for the tests: no real glaze, no real studio.

var inventedNames = []string{
	"Quarry Milk", "Lamp Rust", "Kiln Moss", "Harbor Slate", "Barley Satin", "Ink Well",
	"Pine Resin", "Chalk Path", "Ember Low", "Tide Glass", "Plum Shade", "Copper Leaf",
}

// invent makes a wall of n glazes, all ordered pairs and singles, fired and
// measured but for a few places.
func invent(n int) tiles.Wall {
	r := rand.New(rand.NewPCG(7, uint64(n)))
	w := tiles.Wall{Settings: tiles.Settings{Name: "Fenwick Lane Studio", Cone: "6", Language: "en", Diagonal: tiles.DiagonalSingle}}
	base := make([]color.Lab, n)
	for i := range n {
		g := tiles.Glaze{Code: fmt.Sprintf("G%d", i), Name: fmt.Sprintf("Invented %d", i), Finish: []string{"gloss", "satin", "matte"}[i%3], Cone: "6", Line: i + 2}
		if i < len(inventedNames) {
			g.Name, g.Code = inventedNames[i], string(inventedNames[i][0])+string(rune('A'+i))
		}
		if i == 0 {
			g.Color = "green where it is thick" // said by the teacher; its tile measures brown
		}
		if i%5 == 1 {
			g.Traits = []tiles.Trait{tiles.Runny}
		}
		base[i] = color.Lab{L: 25 + 60*r.Float64(), A: 60*r.Float64() - 30, B: 70*r.Float64() - 30}
		w.Glazes = append(w.Glazes, g)
	}
	for i := range n {
		for j := range n {
			w.Tiles = append(w.Tiles, inventTile(len(w.Tiles)+1, w.Glazes, i, j))
		}
	}
	for _, t := range w.Tiles {
		if t.Status == tiles.Fired {
			w.Readings = append(w.Readings, inventReadings(r, t, w.Glazes, base)...)
		}
	}
	return w
}

func inventTile(number int, gs []tiles.Glaze, i, j int) tiles.Tile {
	t := tiles.Tile{Number: tiles.Number(number), Pair: tiles.Pair{First: gs[i].Code, Second: gs[j].Code}, Status: tiles.Fired, Load: 1 + number%3, Shelf: "top"}
	if i == j {
		t.Second = ""
	}
	switch {
	case number%41 == 0:
		t.Status = tiles.Planned
	case number%53 == 0:
		t.Status, t.Reason = tiles.Skipped, "both run"
	}
	return t
}

func inventReadings(r *rand.Rand, t tiles.Tile, gs []tiles.Glaze, base []color.Lab) []tiles.Reading {
	at := func(code string) color.Lab {
		for i, g := range gs {
			if g.Code == code {
				return base[i]
			}
		}
		return color.Lab{}
	}
	reading := func(z tiles.Zone, c color.Lab) tiles.Reading {
		classes := []tiles.Class{tiles.ClassChart, tiles.ClassGrey, tiles.ClassCamera}
		k := int(t.Number) % 3
		return tiles.Reading{Tile: t.Number, Zone: z, L: round2(c.L), A: round2(c.A), B: round2(c.B), Class: classes[k], Doubt: []float64{1.4, 3.2, 7.5}[k],
			Correction: "invented", Profile: "sRGB assumed", Kept: 0.9, Spread: 6 * r.Float64(), Photo: t.Number.String() + ".jpg"}
	}
	first := at(t.First)
	if t.Single() {
		return []tiles.Reading{reading(tiles.ZoneWhole, first)}
	}
	second := at(t.Second)
	over := color.Lab{L: 0.35*first.L + 0.6*second.L, A: 0.3*first.A + 0.8*second.A, B: 0.3*first.B + 0.8*second.B}
	mixed := reading(tiles.ZoneOverlap, over)
	if t.Number%4 == 0 {
		mixed.Parts = []tiles.Part{{L: over.L + 6, A: over.A, B: over.B - 4, Share: 0.7}, {L: math.Max(0, over.L-14), A: over.A + 5, B: over.B + 9, Share: 0.3}}
	}
	return []tiles.Reading{mixed, reading(tiles.ZoneFirst, first), reading(tiles.ZoneSecond, second)}
}

func round2(v float64) float64 { return math.Round(100*v) / 100 }

// inventPictures makes pictures of the measured tiles in a folder: three
// bands, a little texture. Only the first dozen have the full size, and no
// more than most are drawn: the others borrow theirs.
func inventPictures(t testing.TB, w tiles.Wall, most int) func(tiles.Number, int) (string, bool) {
	t.Helper()
	dir := t.TempDir()
	have := map[tiles.Number]int{}
	for _, tile := range w.Tiles {
		if tile.Status != tiles.Fired {
			continue
		}
		n := len(have)
		have[tile.Number] = n % most
		if n >= most {
			continue
		}
		var bands []color.Lab
		for _, z := range []tiles.Zone{tiles.ZoneSecond, tiles.ZoneOverlap, tiles.ZoneWhole, tiles.ZoneFirst} {
			if r, ok := tiles.Choose(w.Readings, tile.Number, z); ok {
				bands = append(bands, labOf(r))
			}
		}
		for _, width := range []int{large, small} {
			size := width
			if n >= 12 {
				size = small
			}
			inventPicture(t, filepath.Join(dir, fmt.Sprintf("%d-%d.jpg", n, width)), bands, size, uint64(tile.Number))
		}
	}
	return func(n tiles.Number, width int) (string, bool) {
		k, ok := have[n]
		return filepath.Join(dir, fmt.Sprintf("%d-%d.jpg", k, width)), ok
	}
}

func inventPicture(t testing.TB, name string, bands []color.Lab, width int, seed uint64) {
	r := rand.New(rand.NewPCG(seed, 1))
	shades := make([][16][3]uint8, len(bands))
	for i, c := range bands {
		for k := range shades[i] {
			v := c
			v.L = min(max(c.L+float64(k)-8, 0), 100)
			shades[i][k][0], shades[i][k][1], shades[i][k][2] = screenFast(v)
		}
	}
	img := image.NewRGBA(image.Rect(0, 0, width*3/4, width))
	for y := range width {
		band := &shades[y*len(bands)/width]
		for x := range width * 3 / 4 {
			k := 8 + 4*math.Sin(float64(x)*18/float64(width)+float64(seed)) + 3*r.Float64() - 1.5
			c := band[min(max(int(k), 0), 15)]
			copy(img.Pix[img.PixOffset(x, y):], []uint8{c[0], c[1], c[2], 255})
		}
	}
	f, err := os.Create(name)
	require.NoError(t, err)
	defer f.Close()
	require.NoError(t, jpeg.Encode(f, img, &jpeg.Options{Quality: 80}))
}

// screenFast shows a color by clipping: good enough for an invented photo.
func screenFast(c color.Lab) (r, g, b uint8) {
	lr, lg, lb := c.XYZ().LinearSRGB()
	eight := func(v float64) uint8 { return uint8(255*color.Encoded(min(max(v, 0), 1)) + 0.5) }
	return eight(lr), eight(lg), eight(lb)
}
