package mistaken

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// world is a simulated wall: glazes anywhere among fired colors, tiles of one
// glaze that differ by themselves, photos that err by the light of the hour,
// loads that move everything.
type world struct {
	*rand.Rand
	wall tiles.Wall
	true map[string]color.Lab
	load map[int]color.Lab
}

// How far tiles of a batch, photos in one light and loads lie apart, per axis of
// CIELAB. Controls of a well-kept kiln differ by about 1; common practice, no source.
const (
	tileSigma  = 1.0
	photoSigma = 0.6
	loadSigma  = 1.5
)

func newWorld(seed uint64, glazes int, fired float64) *world {
	w := &world{Rand: rand.New(rand.NewPCG(seed, 18)), true: map[string]color.Lab{}, load: map[int]color.Lab{}}
	var codes []string
	for i := range glazes {
		code := fmt.Sprintf("G%d", i)
		codes = append(codes, code)
		w.wall.Glazes = append(w.wall.Glazes, tiles.Glaze{Code: code, Name: "Glaze " + code})
		w.true[code] = color.Lab{L: 20 + 70*w.Float64(), A: 40*w.Float64() - 15, B: 60*w.Float64() - 25}
	}
	for _, first := range codes {
		w.tile(first, "")
		for _, second := range codes {
			if first != second && w.Float64() < fired {
				w.tile(first, second)
			}
		}
	}
	for _, t := range w.wall.Tiles {
		w.photograph(t, t.Number, fmt.Sprintf("%d.jpg", t.Number))
	}
	return w
}

func (w *world) tile(first, second string) {
	n := tiles.Number(len(w.wall.Tiles) + 1)
	w.wall.Tiles = append(w.wall.Tiles, tiles.Tile{Number: n, Pair: tiles.Pair{First: first, Second: second},
		Status: tiles.Fired, Load: 1 + int(n)/40})
}

func (w *world) off(sigma float64) color.Lab {
	return color.Lab{L: sigma * w.NormFloat64(), A: sigma * w.NormFloat64(), B: sigma * w.NormFloat64()}
}

func plus(p, q color.Lab) color.Lab { return color.Lab{L: p.L + q.L, A: p.A + q.A, B: p.B + q.B} }

// photograph reads a photo of the tile that is kept under the number.
func (w *world) photograph(of tiles.Tile, under tiles.Number, name string) {
	if _, ok := w.load[of.Load]; !ok {
		w.load[of.Load] = w.off(loadSigma)
	}
	common := plus(w.off(photoSigma), w.load[of.Load])
	read := func(z tiles.Zone, glaze string) {
		c := plus(plus(w.true[glaze], common), w.off(tileSigma))
		w.wall.Readings = append(w.wall.Readings, tiles.Reading{Tile: under, Zone: z, Photo: name, L: c.L, A: c.A, B: c.B, Doubt: 5})
	}
	if of.Single() {
		read(tiles.ZoneWhole, of.First)
		return
	}
	read(tiles.ZoneFirst, of.First)
	read(tiles.ZoneSecond, of.Second)
}

// pairsApart finds two pairs whose firsts differ by 10 to 13.
func (w *world) pairsApart() (a, b tiles.Tile, ok bool) {
	for range 5000 {
		a, b = w.wall.Tiles[w.IntN(len(w.wall.Tiles))], w.wall.Tiles[w.IntN(len(w.wall.Tiles))]
		de := color.DE00(w.true[a.First], w.true[b.First])
		if !a.Single() && !b.Single() && de >= 10 && de < 13 {
			return a, b, true
		}
	}
	return a, b, false
}

// TestSwappedPhotosAreNamed: of photos swapped between pairs whose firsts are
// ΔE00 10 to 13 apart at least 95 % are named, of right ones at most 1 %.
func TestSwappedPhotosAreNamed(t *testing.T) {
	swaps, named, fits, right, blamed := 0, 0, 0, 0, 0
	for seed := range uint64(60) {
		w := newWorld(seed, 8+int(seed%7), []float64{1, 0.5, 0.3}[seed%3])
		right += len(w.wall.Tiles)
		blamed += len(Find(w.wall))
		a, b, ok := w.pairsApart()
		if !ok {
			continue
		}
		w.wall.Readings = slices.DeleteFunc(w.wall.Readings, func(r tiles.Reading) bool { return r.Tile == a.Number || r.Tile == b.Number })
		w.photograph(a, b.Number, fmt.Sprintf("%d.jpg", b.Number))
		w.photograph(b, a.Number, fmt.Sprintf("%d.jpg", a.Number))
		for _, swap := range [][2]tiles.Number{{a.Number, b.Number}, {b.Number, a.Number}} {
			swaps++
			for _, p := range Find(w.wall) {
				if p.Tile == swap[0] {
					named++
					if slices.Contains(p.Fits, swap[1]) {
						fits++
					}
				}
			}
		}
	}
	t.Logf("of %d swapped photos %d were named, %d with the right tile; of %d right ones %d", swaps, named, fits, right, blamed)
	require.Greater(t, swaps, 80)
	require.GreaterOrEqual(t, float64(named), 0.95*float64(swaps))
	require.LessOrEqual(t, float64(blamed), 0.01*float64(right))
}

// TestASecondPhotoOfATileIsHeldToo: "2 again.jpg" of another tile is named
// though 2.jpg is right.
func TestASecondPhotoOfATileIsHeldToo(t *testing.T) {
	w := newWorld(4, 10, 1)
	a, b, ok := w.pairsApart()
	require.True(t, ok)
	w.photograph(b, a.Number, "again.jpg")
	found := Find(w.wall)
	require.Len(t, found, 1)
	require.Equal(t, "again.jpg", found[0].Photo)
	require.Contains(t, found[0].Fits, b.Number)
}

// TestNothingToHoldAgainst: one photo a glaze, or none, says nothing.
func TestNothingToHoldAgainst(t *testing.T) {
	require.Empty(t, Find(tiles.Wall{}))
	require.Empty(t, Find(newWorld(1, 6, 0).wall))
}

func BenchmarkFind(b *testing.B) {
	w := newWorld(1, 60, 1)
	for b.Loop() {
		Find(w.wall)
	}
}
