package plan_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// glazesOf makes n glazes with the codes A, B, …, AA, AB, ….
func glazesOf(n int) []tiles.Glaze {
	gs := make([]tiles.Glaze, n)
	for i := range gs {
		code := string(rune('A' + i%26))
		if i >= 26 {
			code = string(rune('A'+i/26-1)) + code
		}
		gs[i] = tiles.Glaze{Code: code, Name: "Glaze " + code}
	}
	return gs
}

func extend(t require.TestingT, s tiles.Settings, gs []tiles.Glaze, have []tiles.Tile) plan.Result {
	r, err := plan.Extend(s, gs, have)
	require.NoError(t, err)
	return r
}

func kinds(ts []tiles.Tile) (singles, doubles, pairs int) {
	for _, t := range ts {
		switch {
		case t.Single():
			singles++
		case t.Double():
			doubles++
		default:
			pairs++
		}
	}
	return
}

// Derived: n glazes give n² tiles, 12 → 144 = 132 ordered pairs + 12.
func TestExtendCounts(t *testing.T) {
	for _, n := range []int{0, 1, 2, 12, 60} {
		r := extend(t, tiles.Settings{}, glazesOf(n), nil)
		singles, doubles, pairs := kinds(r.Tiles)
		require.Len(t, r.Tiles, n*n)
		require.Equal(t, []int{n, 0, n * (n - 1)}, []int{singles, doubles, pairs})
	}
}

func TestExtendDiagonal(t *testing.T) {
	for diagonal, want := range map[tiles.Diagonal][]int{
		tiles.DiagonalSingle: {12, 0, 132},
		tiles.DiagonalDouble: {0, 12, 132},
		tiles.DiagonalBoth:   {12, 12, 132},
	} {
		singles, doubles, pairs := kinds(extend(t, tiles.Settings{Diagonal: diagonal}, glazesOf(12), nil).Tiles)
		require.Equal(t, want, []int{singles, doubles, pairs}, diagonal)
	}
}

func TestExtendNumbersAsTheWallIsRead(t *testing.T) {
	r := extend(t, tiles.Settings{Diagonal: tiles.DiagonalBoth}, glazesOf(2), nil)
	var read []string
	for _, tile := range r.Tiles {
		read = append(read, fmt.Sprintf("%d %s", tile.Number, tile.Pair))
	}
	require.Equal(t, []string{"1 1st A alone", "2 1st A → 2nd A again", "3 1st A → 2nd B",
		"4 1st B → 2nd A", "5 1st B alone", "6 1st B → 2nd B again"}, read)
}

func TestExtendPutsANewGlazeAfterAll(t *testing.T) {
	before := extend(t, tiles.Settings{}, glazesOf(12), nil)
	after := extend(t, tiles.Settings{}, glazesOf(13), before.Tiles)
	require.Equal(t, before.Tiles, after.Tiles[:144])
	require.Len(t, after.Added, 25)
	for _, n := range after.Added {
		tile, _ := tiles.FindTile(after.Tiles, n)
		require.Greater(t, n, tiles.Number(144))
		require.True(t, tile.Has("M"))
		require.Equal(t, 2, tile.Round)
	}
}

func TestExtendKeepsARetiredGlazesNumbers(t *testing.T) {
	gs := glazesOf(3)
	before := extend(t, tiles.Settings{}, gs, nil)
	before.Tiles[0].Status, before.Tiles[1].Reason = tiles.Fired, "Mia's favorite"
	gs[0].Retired = true
	gone := extend(t, tiles.Settings{}, gs, before.Tiles)
	require.Empty(t, gone.Added)
	require.Len(t, gone.Changed, 5)
	require.Equal(t, tiles.Retired, gone.Tiles[0].Status)
	require.Equal(t, "glaze A is retired", gone.Tiles[0].Reason)
	require.Equal(t, "glaze A is retired", gone.Tiles[1].Reason)
	require.Equal(t, "Mia's favorite", gone.Tiles[1].Earlier)
	gs[0].Retired = false
	require.Equal(t, before.Tiles, extend(t, tiles.Settings{}, gs, gone.Tiles).Tiles)
}

func TestExtendKeepsTheRowsOfAVanishedGlaze(t *testing.T) {
	before := extend(t, tiles.Settings{}, glazesOf(3), nil)
	after := extend(t, tiles.Settings{}, glazesOf(2), before.Tiles)
	require.Len(t, after.Tiles, 9)
	require.Equal(t, "glaze C is no longer in the list", after.Tiles[2].Reason)
	require.Equal(t, tiles.Retired, after.Tiles[2].Status)
}

func TestExtendNotesAChangedCode(t *testing.T) {
	before := extend(t, tiles.Settings{}, glazesOf(3), nil)
	gs := glazesOf(3)
	gs[2].Code = "CX"
	after := extend(t, tiles.Settings{}, gs, before.Tiles)
	require.Len(t, after.Notes, 1)
	require.Contains(t, after.Notes[0], "C left the list and CX came")
}

func TestExtendSkipsARuledOutPairWithoutANumber(t *testing.T) {
	s := tiles.Settings{Rules: []tiles.Rule{{First: "A", Second: "B", Do: "skip", Reason: "both run", Line: 7}}}
	r := extend(t, s, glazesOf(3), nil)
	require.Len(t, r.Tiles, 8)
	require.Len(t, r.Skipped, 1)
	require.Equal(t, "both run", r.Skipped[0].Reason())
	require.Equal(t, 7, r.Skipped[0].Grounds[0].Line)
}

func TestExtendSkipsANumberedPairWhenTheRuleComes(t *testing.T) {
	before := extend(t, tiles.Settings{}, glazesOf(3), nil)
	s := tiles.Settings{Rules: []tiles.Rule{{First: "A", Second: "B", Do: "skip", Reason: "both run"}}}
	after := extend(t, s, glazesOf(3), before.Tiles)
	require.Equal(t, tiles.Skipped, after.Tiles[1].Status)
	require.Equal(t, "both run", after.Tiles[1].Reason)
	require.Equal(t, before.Tiles, extend(t, tiles.Settings{}, glazesOf(3), after.Tiles).Tiles, "the rule is gone again")
}

func TestExtendReplacesABrokenTile(t *testing.T) {
	before := extend(t, tiles.Settings{}, glazesOf(3), nil)
	before.Tiles[4].Status, before.Tiles[4].Reason = tiles.Retired, "broken"
	after := extend(t, tiles.Settings{}, glazesOf(3), before.Tiles)
	require.Equal(t, []tiles.Number{10}, after.Added)
	require.Equal(t, before.Tiles[4].Pair, after.Tiles[9].Pair)
	require.Equal(t, "replaces tile 5", after.Tiles[9].Reason)
	require.Equal(t, before.Tiles[4], after.Tiles[4])
	require.Empty(t, extend(t, tiles.Settings{}, glazesOf(3), after.Tiles).Added, "once is enough")
}

func TestExtendLeavesAStatusSetByHand(t *testing.T) {
	before := extend(t, tiles.Settings{}, glazesOf(2), nil)
	before.Tiles[1].Status, before.Tiles[1].Reason = tiles.Skipped, "no clay left"
	after := extend(t, tiles.Settings{}, glazesOf(2), before.Tiles)
	require.Equal(t, before.Tiles, after.Tiles)
}

func TestExtendRefusesThreeCoats(t *testing.T) {
	_, err := plan.Extend(tiles.Settings{Dip: tiles.Dip{Coats: 3}}, glazesOf(2), nil)
	require.ErrorContains(t, err, "wall.yaml: dip: coats: 3 coats on one tile")
}

func TestExtendOneCoatMakesSinglesOnly(t *testing.T) {
	singles, doubles, pairs := kinds(extend(t, tiles.Settings{Dip: tiles.Dip{Coats: 1}}, glazesOf(5), nil).Tiles)
	require.Equal(t, []int{5, 0, 0}, []int{singles, doubles, pairs})
}

func TestExtendRefusesTwoRowsOfOneNumber(t *testing.T) {
	have := []tiles.Tile{{Number: 3, Pair: tiles.Pair{First: "A"}}, {Number: 3, Pair: tiles.Pair{First: "B"}}}
	_, err := plan.Extend(tiles.Settings{}, glazesOf(2), have)
	require.ErrorContains(t, err, "tile 3 stands twice")
}

func BenchmarkExtend(b *testing.B) {
	for _, n := range []int{12, 24, 60, 120} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			gs := glazesOf(n)
			for b.Loop() {
				extend(b, tiles.Settings{}, gs, nil)
			}
		})
	}
}
