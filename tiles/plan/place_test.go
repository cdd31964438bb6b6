package plan_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// kiln is a small studio kiln: three round shelves, upright tiles with a foot.
func kiln() tiles.Settings {
	return tiles.Settings{
		Tile: tiles.Shape{Width: 60, Height: 90, Thickness: 6, Foot: 25, Bare: 9},
		Kiln: tiles.Kiln{Gap: 12, Upright: true, Tray: 10, Seed: 1, Post: 40, Shelves: []tiles.Shelf{
			{Name: "top", Shape: "round", Width: 380, Depth: 380},
			{Name: "middle", Shape: "round", Width: 380, Depth: 380},
			{Name: "bottom", Shape: "round", Width: 380, Depth: 380},
		}},
	}
}

func placed(t require.TestingT, s tiles.Settings, gs []tiles.Glaze) (tiles.Wall, plan.Placed) {
	r := extend(t, s, gs, nil)
	p := plan.Place(s, gs, r.Tiles, false)
	return tiles.Wall{Settings: s, Glazes: gs, Tiles: p.Tiles}, p
}

// runnyThird makes every third glaze runny.
func runnyThird(gs []tiles.Glaze) []tiles.Glaze {
	for i := range gs {
		if i%3 == 2 {
			gs[i].Traits = []tiles.Trait{tiles.Runny}
		}
	}
	return gs
}

// sound holds every load of the wall to what a kiln allows.
func sound(t require.TestingT, w tiles.Wall) {
	for _, l := range plan.Loads(w) {
		for _, s := range l.Shelves {
			for i, a := range s.Places {
				onShelf(t, s, a)
				for _, b := range s.Places[:i] {
					require.GreaterOrEqual(t, apart(a, b), w.Kiln.Gap-0.25, "load %d: tiles %d and %d", l.Number, a.Tile.Number, b.Tile.Number)
					require.GreaterOrEqual(t, apart(a, b), a.Slab+b.Slab-0.25, "waste slabs of %d and %d", a.Tile.Number, b.Tile.Number)
				}
				for _, post := range s.Posts {
					p := plan.Placement{X: post.X, Y: post.Y, Width: post.Side, Depth: post.Side}
					require.GreaterOrEqual(t, apart(a, p), w.Kiln.Gap-0.25, "tile %d and a post", a.Tile.Number)
				}
			}
		}
	}
}

// apart is the free way between two upright rectangles, along x or y.
func apart(a, b plan.Placement) float64 {
	dx := math.Abs(a.X-b.X) - (a.Width+b.Width)/2
	dy := math.Abs(a.Y-b.Y) - (a.Depth+b.Depth)/2
	return max(dx, dy)
}

// onShelf checks the corners of the tile and its slab against the shape.
func onShelf(t require.TestingT, s plan.Shelf, p plan.Placement) {
	for _, x := range []float64{p.X - p.Width/2 - p.Slab, p.X + p.Width/2 + p.Slab} {
		for _, y := range []float64{p.Y - p.Depth/2 - p.Slab, p.Y + p.Depth/2 + p.Slab} {
			inside := x >= -0.2 && x <= s.Width+0.2 && y >= -0.2 && y <= s.Depth+0.2
			switch s.Shelf.Shape {
			case "round":
				inside = math.Hypot(x-s.Width/2, y-s.Depth/2) <= s.Width/2+0.2
			case "half-round":
				inside = inside && math.Hypot(x-s.Width/2, y) <= s.Width/2+0.2
			}
			require.True(t, inside, "tile %d stands over the edge of %s", p.Tile.Number, s.Name)
		}
	}
}

func TestPlaceATwelveGlazeWall(t *testing.T) {
	w, p := placed(t, kiln(), glazesOf(12))
	require.Empty(t, p.Without)
	sound(t, w)
	loads := plan.Loads(w)
	require.Len(t, loads, 2)
	total := 0
	for _, l := range loads {
		total += len(l.Tiles())
	}
	require.Equal(t, 144, total)
}

func TestPlaceKeepsBothOrdersOnOneShelf(t *testing.T) {
	w, _ := placed(t, kiln(), runnyThird(glazesOf(12)))
	for _, tile := range w.Tiles {
		other, ok := w.Own(tile.Pair.Reverse())
		require.True(t, ok)
		require.Equal(t, []any{tile.Load, tile.Shelf}, []any{other.Load, other.Shelf}, tile.Pair)
	}
}

// Runny tiles fill the shelves from the bottom up: one stands higher only
// where the shelf below has no room for one more pair on slabs.
func TestPlaceRunnyTilesLowOnSlabs(t *testing.T) {
	gs := glazesOf(12)
	gs[3].Traits = []tiles.Trait{tiles.Runny}
	w, _ := placed(t, kiln(), gs)
	sound(t, w)
	for _, l := range plan.Loads(w) {
		for _, s := range l.Shelves {
			for _, p := range s.Places {
				require.Equal(t, p.Tile.Has("D"), p.Slab > 0)
				if p.Slab > 0 {
					require.Equal(t, "bottom", s.Name)
				}
			}
		}
	}
}

func TestPlaceControlsOnEveryShelfOfEveryLoad(t *testing.T) {
	s := kiln()
	s.Kiln.Controls = []string{"B", "E"}
	w, _ := placed(t, s, glazesOf(12))
	sound(t, w)
	for _, l := range plan.Loads(w) {
		for _, shelf := range l.Shelves {
			var controls []string
			for _, p := range shelf.Places {
				if p.Control {
					controls = append(controls, p.Tile.First)
					require.Equal(t, w.Tiles[p.Tile.Repeats-1].Pair, p.Tile.Pair)
				}
			}
			require.ElementsMatch(t, []string{"B", "E"}, controls, "load %d %s", l.Number, shelf.Name)
		}
	}
	again := plan.Place(s, w.Glazes, w.Tiles, true)
	require.Len(t, again.Tiles, len(w.Tiles), "controls are used again")
}

func TestPlaceAddsNewTilesInNewLoads(t *testing.T) {
	s := kiln()
	w, _ := placed(t, s, glazesOf(12))
	r := extend(t, s, glazesOf(13), w.Tiles)
	p := plan.Place(s, glazesOf(13), r.Tiles, false)
	require.Equal(t, w.Tiles, p.Tiles[:144], "printed shelf maps stay true")
	for _, tile := range p.Tiles[144:] {
		require.Equal(t, 3, tile.Load)
	}
}

// Half a load is photographed, so measured and fired: the other half is out of
// the kiln as well, and must not be planned into another load.
func TestPlaceLeavesALoadThatWasFired(t *testing.T) {
	s := kiln()
	w, _ := placed(t, s, glazesOf(12))
	for i := range w.Tiles[:70] {
		if w.Tiles[i].Load == 1 {
			w.Tiles[i].Status = tiles.Fired
		}
	}
	p := plan.Place(s, w.Glazes, w.Tiles, true)
	for i, tile := range p.Tiles {
		if w.Tiles[i].Load == 1 {
			require.Equal(t, w.Tiles[i], tile)
		}
	}
	w.Tiles = p.Tiles
	require.True(t, plan.Loads(w)[0].Fired)
	require.Equal(t, 72, plan.Need(w).Tiles, "only load 2 is still to make")
}

func TestPlacePlansAgainWhenTheKilnChanges(t *testing.T) {
	s := kiln()
	w, _ := placed(t, s, glazesOf(6))
	s.Kiln.Shelves = []tiles.Shelf{{Name: "only", Shape: "rectangle", Width: 400, Depth: 300}}
	p := plan.Place(s, w.Glazes, w.Tiles, false)
	w.Settings, w.Tiles = s, p.Tiles
	sound(t, w)
	require.Equal(t, "only", p.Tiles[0].Shelf)
	require.Equal(t, 1, plan.Loads(w)[0].Number)
}

func TestPlaceSaysWhatDoesNotFit(t *testing.T) {
	s := kiln()
	s.Kiln.Shelves = []tiles.Shelf{{Name: "tiny", Shape: "rectangle", Width: 60, Depth: 60}}
	_, p := placed(t, s, glazesOf(3))
	require.Len(t, p.Without, 9)
	require.Contains(t, p.Notes[0], "9 tiles fit on no shelf: each needs 60 × 25 mm and 6 mm around it")
}

func TestPlaceLeavesOutShelvesAboveTheLid(t *testing.T) {
	s := kiln()
	s.Kiln.Height = 330
	w, p := placed(t, s, glazesOf(12))
	require.Contains(t, p.Notes[0], "takes 2 of its 3 shelves")
	for _, tile := range w.Tiles {
		require.NotEqual(t, "top", tile.Shelf)
	}
}

func TestPlaceSameSeedSamePlaces(t *testing.T) {
	a, _ := placed(t, kiln(), glazesOf(9))
	b, _ := placed(t, kiln(), glazesOf(9))
	require.Equal(t, a, b)
	s := kiln()
	s.Kiln.Seed = 2
	c, _ := placed(t, s, glazesOf(9))
	require.NotEqual(t, a.Tiles, c.Tiles)
}

func TestPlacePrefersTheFirstLoads(t *testing.T) {
	s := kiln()
	s.Kiln.Shelves = s.Kiln.Shelves[:1]
	s.Part.Prefer = []string{"C"}
	w, _ := placed(t, s, glazesOf(12))
	for _, tile := range w.Tiles {
		if tile.Has("C") {
			require.Equal(t, 1, tile.Load)
		}
	}
}

// Any kiln, any tile, any traits: nothing overlaps, nothing is lost, and a
// second run moves nothing.
func TestPlaceIsSoundForAnyKiln(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := kiln()
		s.Kiln.Upright = rapid.Bool().Draw(t, "upright")
		s.Kiln.Gap = float64(rapid.IntRange(6, 25).Draw(t, "gap"))
		s.Kiln.Post = float64(rapid.SampledFrom([]int{0, 30, 50}).Draw(t, "post"))
		s.Kiln.Seed = rapid.Uint64().Draw(t, "seed")
		s.Kiln.Shelves = nil
		for i := range rapid.IntRange(1, 4).Draw(t, "shelves") {
			shape := rapid.SampledFrom([]string{"rectangle", "round", "half-round"}).Draw(t, "shape")
			s.Kiln.Shelves = append(s.Kiln.Shelves, tiles.Shelf{Name: fmt.Sprint(i), Shape: shape,
				Width: float64(rapid.IntRange(200, 500).Draw(t, "width"))})
		}
		gs := glazesOf(rapid.IntRange(1, 6).Draw(t, "glazes"))
		for i := range gs {
			if rapid.Bool().Draw(t, "runny") {
				gs[i].Traits = []tiles.Trait{tiles.Runny}
			}
		}
		if rapid.Bool().Draw(t, "control") {
			s.Kiln.Controls = []string{"A"}
		}
		w, p := placed(t, s, gs)
		sound(t, w)
		own := 0
		for _, l := range plan.Loads(w) {
			for _, tile := range l.Tiles() {
				if tile.Own() {
					own++
				}
			}
		}
		require.Equal(t, len(gs)*len(gs), own+len(p.Without))
		require.Equal(t, p.Tiles, plan.Place(s, gs, p.Tiles, false).Tiles)
	})
}

func BenchmarkPlace(b *testing.B) {
	for _, n := range []int{12, 24, 60, 120} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s, gs := kiln(), runnyThird(glazesOf(n))
			have := extend(b, s, gs, nil).Tiles
			for b.Loop() {
				plan.Place(s, gs, have, false)
			}
		})
	}
}

// Kilns at both ends: one that holds five tiles at a time, one as large as a room.
func BenchmarkPlaceExtremes(b *testing.B) {
	small, large := kiln(), kiln()
	small.Kiln.Shelves = []tiles.Shelf{{Name: "a", Shape: "rectangle", Width: 220, Depth: 60}, {Name: "b", Shape: "rectangle", Width: 220, Depth: 60}}
	small.Kiln.Post = 0
	large.Tile = tiles.Shape{Width: 10, Height: 10, Thickness: 1}
	large.Kiln.Shelves = []tiles.Shelf{{Name: "a", Shape: "rectangle", Width: 3000, Depth: 3000}}
	for name, s := range map[string]tiles.Settings{"small": small, "large": large} {
		b.Run(name, func(b *testing.B) {
			gs := runnyThird(glazesOf(60))
			have := extend(b, s, gs, nil).Tiles
			for b.Loop() {
				p := plan.Place(s, gs, have, false)
				require.Empty(b, p.Without)
			}
		})
	}
}
