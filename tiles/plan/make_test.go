package plan_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

func made(t require.TestingT, w plan.Wish) plan.Plan {
	p, err := plan.Make(w)
	require.NoError(t, err)
	return p
}

func wish(n int) plan.Wish {
	s := kiln()
	s.Dip = tiles.Dip{Seconds: 3, Handling: 25, Opening: 4, Stir: 5, Dry: 10, Thickness: 0.5, Loss: 15, Spares: 10, Bucket: 280, Cup: 120}
	s.Clay = tiles.Clay{Density: 2, Waste: 15}
	s.Kiln.Controls = []string{"A"}
	return plan.Wish{Wall: tiles.Wall{Settings: s, Glazes: glazesOf(n)}}
}

// A wall's years: planned, fired, one glaze more, one batch, one tile broken.
// Each time plan says what to make now, and New is exactly that.
func TestMakeThroughTheYears(t *testing.T) {
	w := wish(12)
	first := made(t, w)
	require.Len(t, first.Added, 144)
	require.Len(t, first.Controls, 6, "3 shelves in each of 2 loads")
	require.Len(t, plan.New(first.Tiles), 150)
	require.Equal(t, 150, first.Materials.Tiles)
	require.Len(t, first.Dips, 2)

	w.Tiles = first.Tiles
	still := made(t, w)
	require.Equal(t, first.Tiles, still.Tiles)
	require.Empty(t, still.Changed)

	for i := range w.Tiles {
		w.Tiles[i].Status = tiles.Fired
	}
	w.Glazes = glazesOf(13)
	grown := made(t, w)
	require.Len(t, grown.Added, 25)
	require.Len(t, plan.New(grown.Tiles), 25+len(grown.Controls))
	require.Equal(t, first.Tiles, grown.Tiles[:150])

	w.Tiles = grown.Tiles
	for i := range w.Tiles {
		w.Tiles[i].Status = tiles.Fired
	}
	w.Retest = tiles.RetestAll
	w.Batches = []tiles.Batch{{Glaze: "C", Name: "1"}, {Glaze: "C", Name: "2"}}
	w.Tiles[9].Status, w.Tiles[9].Reason = tiles.Retired, "broken"
	later := made(t, w)
	require.Len(t, later.Added, 1)
	require.Len(t, later.Due, 25)
	for _, tile := range plan.New(later.Tiles) {
		require.Equal(t, 3, tile.Round)
		require.Greater(t, tile.Load, 3)
	}
	require.Len(t, plan.New(later.Tiles), 26+len(later.Controls))
}

func TestMakeSetsControlsAsideForGood(t *testing.T) {
	w := wish(4)
	w.Tiles = made(t, w).Tiles
	w.Kiln.Controls = nil
	p := made(t, w)
	require.Len(t, p.Changed, 1, "16 tiles stand on one shelf, with one control")
	require.Equal(t, tiles.Skipped, p.Changed[0].Tile.Status)
	w.Tiles = p.Tiles
	require.Equal(t, p.Tiles, made(t, w).Tiles)
	w.Kiln.Controls = []string{"A"}
	back := made(t, w)
	require.Empty(t, back.Controls, "the old numbers come back")
	require.Len(t, back.Tiles, len(p.Tiles))
}

func TestNewOfAPlanWithoutRounds(t *testing.T) {
	ts := []tiles.Tile{{Number: 1, Status: tiles.Planned}, {Number: 2, Status: tiles.Fired}}
	require.Equal(t, ts[:1], plan.New(ts))
}

func BenchmarkMake(b *testing.B) {
	for _, n := range []int{12, 24, 60, 120} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			w := wish(n)
			w.Glazes = runnyThird(w.Glazes)
			for b.Loop() {
				made(b, w)
			}
		})
	}
}

// Planning a big wall again, with nothing to do, is the common case.
func BenchmarkMakeAgain(b *testing.B) {
	w := wish(60)
	w.Tiles = made(b, w).Tiles
	for b.Loop() {
		made(b, w)
	}
}

// The highest number a plan can read is 99999: the plan refuses to give more,
// whatever would get it: a pair, a re-test or a control.
func TestNoNumberIsGivenThatCannotBeReadBack(t *testing.T) {
	for name, change := range map[string]func(*plan.Wish){
		"control": func(w *plan.Wish) { w.Kiln.Controls = []string{"A"} },
		"re-test": func(w *plan.Wish) {
			w.Tiles[0].Status, w.Tiles[0].Load = tiles.Fired, 1
			w.Batches = mixed
		},
		"pair": func(w *plan.Wish) { w.Glazes = glazesOf(3) },
	} {
		w := wish(2)
		w.Kiln.Controls = nil
		w.Tiles = made(t, w).Tiles
		w.Tiles[len(w.Tiles)-1].Number = tiles.MaxNumber
		change(&w)
		_, err := plan.Make(w)
		require.ErrorContains(t, err, "no number is left", name)
	}
}
