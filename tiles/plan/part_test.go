package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// partners counts how often each glaze is first and second in pairs of two
// glazes, and how many pairs lack their other order.
func partners(ts []tiles.Tile) (first, second map[string]int, alone int) {
	first, second = map[string]int{}, map[string]int{}
	w := tiles.Wall{Tiles: ts}
	for _, t := range ts {
		if t.Single() || t.Double() {
			continue
		}
		first[t.First]++
		second[t.Second]++
		if _, ok := w.Own(t.Reverse()); !ok {
			alone++
		}
	}
	return first, second, alone
}

// 12 glazes with 4 partners each way: 12 singles and 48 pairs, in both orders.
func TestPartOfAWall(t *testing.T) {
	s := tiles.Settings{Part: tiles.Portion{Pairs: 4, Both: true}}
	r := extend(t, s, glazesOf(12), nil)
	require.Len(t, r.Tiles, 12+48)
	require.Equal(t, 132-48, r.Later)
	first, second, alone := partners(r.Tiles)
	require.Zero(t, alone)
	for _, g := range glazesOf(12) {
		require.Equal(t, []int{4, 4}, []int{first[g.Code], second[g.Code]}, g.Code)
	}
}

// A part grows from 2 to 11 partners and ends as the whole wall; no number
// changes on the way.
func TestPartGrowsIntoTheWall(t *testing.T) {
	for _, both := range []bool{false, true} {
		have := []tiles.Tile{}
		for k := 2; k <= 11; k++ {
			s := tiles.Settings{Part: tiles.Portion{Pairs: k, Both: both}}
			r := extend(t, s, glazesOf(12), have)
			require.Equal(t, have, r.Tiles[:len(have):len(have)])
			have = r.Tiles
			first, second, _ := partners(have)
			for _, g := range glazesOf(12) {
				require.Equal(t, []int{k, k}, []int{first[g.Code], second[g.Code]}, "both %v, %d partners: %s", both, k, g.Code)
			}
		}
		require.Len(t, have, 144)
	}
}

func TestPartJoinsPreferredGlazes(t *testing.T) {
	s := tiles.Settings{Part: tiles.Portion{Pairs: 4, Both: true, Prefer: []string{"C", "G", "K"}}}
	w := tiles.Wall{Tiles: extend(t, s, glazesOf(12), nil).Tiles}
	for _, p := range []tiles.Pair{{First: "C", Second: "G"}, {First: "G", Second: "K"}, {First: "K", Second: "C"}} {
		_, ok := w.Own(p)
		require.True(t, ok, p)
	}
}

// Odd partners of odd glazes cannot come out even: one more is planned, and said.
func TestPartSaysWhatCannotBeEven(t *testing.T) {
	r := extend(t, tiles.Settings{Part: tiles.Portion{Pairs: 3, Both: true}}, glazesOf(7), nil)
	require.Len(t, r.Notes, 1)
	require.Contains(t, r.Notes[0], "planned 4 partners")
	require.Len(t, r.Tiles, 7+7*4)
}

// Rules come first: a pair ruled out is in no part, and with both orders asked
// for its other order is not either.
func TestPartKeepsTheRules(t *testing.T) {
	s := tiles.Settings{
		Part:  tiles.Portion{Pairs: 4, Both: true},
		Rules: []tiles.Rule{{First: "A", Second: "B", Do: plan.Skip}},
	}
	w := tiles.Wall{Tiles: extend(t, s, glazesOf(12), nil).Tiles}
	_, ok := w.Own(tiles.Pair{First: "B", Second: "A"})
	require.False(t, ok)
	first, second, _ := partners(w.Tiles)
	for _, g := range glazesOf(12) {
		require.Equal(t, []int{4, 4}, []int{first[g.Code], second[g.Code]}, g.Code)
	}
}

// A glaze that never goes second, or never first, has no pair with both orders:
// it gets its partners in the order there is, and the others keep theirs even.
func TestAPartOfBothOrdersLeavesNoGlazeOut(t *testing.T) {
	for _, trait := range []tiles.Trait{tiles.NeverFirst, tiles.NeverSecond} {
		gs := glazesOf(9)
		gs[2].Traits = []tiles.Trait{trait}
		s := tiles.Settings{Part: tiles.Portion{Pairs: 2, Both: true}}
		first, second := map[string]int{}, map[string]int{}
		for _, tile := range extend(t, s, gs, nil).Tiles {
			if !tile.Single() {
				first[tile.First]++
				second[tile.Second]++
			}
		}
		want := map[bool][2]int{true: {0, 2}, false: {2, 0}}[trait == tiles.NeverFirst]
		require.Equal(t, want, [2]int{first["C"], second["C"]}, trait)
		for _, g := range gs {
			if g.Code != "C" {
				require.Contains(t, []int{2, 3}, first[g.Code], g.Code)
				require.Contains(t, []int{2, 3}, second[g.Code], g.Code)
			}
		}
	}
}

// Pairs asked for beyond the part get numbers after the others, and planning
// again neither takes them back nor asks for more; with both: they come in both
// orders, or the plan makes up the other.
func TestPairsAskedForBeyondThePart(t *testing.T) {
	for _, both := range []bool{false, true} {
		w := tiles.Wall{Settings: tiles.Settings{Part: tiles.Portion{Pairs: 3, Both: both}}, Glazes: glazesOf(9)}
		first, err := plan.Make(plan.Wish{Wall: w})
		require.NoError(t, err)
		w.Tiles = first.Tiles
		var also []tiles.Pair
		for _, a := range w.Glazes[:5] {
			for _, b := range w.Glazes {
				p := tiles.Pair{First: a.Code, Second: b.Code}
				if _, have := w.Own(p); have || a.Code == b.Code || len(also) >= 8 {
					continue
				}
				if also = append(also, p); both {
					also = append(also, p.Reverse())
				}
			}
		}
		also = append(also, tiles.Pair{First: "nobody", Second: w.Glazes[0].Code})
		more, err := plan.Make(plan.Wish{Wall: w, Also: also})
		require.NoError(t, err)
		require.Len(t, more.Added, 8)
		require.Equal(t, first.Later-8, more.Later)
		w.Tiles = more.Tiles
		again, err := plan.Make(plan.Wish{Wall: w})
		require.NoError(t, err)
		require.Empty(t, again.Added, "both %v", both)
	}
}

// Twelve glazes, begun with four: 16 tiles. Begun with six then, the 16 keep
// their numbers; what is preferred comes before the list's first.
func TestAWallIsBegunWithAFewGlazes(t *testing.T) {
	s := tiles.Settings{Part: tiles.Portion{Glazes: 4}}
	r := extend(t, s, glazesOf(12), nil)
	require.Len(t, r.Tiles, 16)
	require.Equal(t, 144-16, r.Later)
	s.Part = tiles.Portion{Glazes: 6, Prefer: []string{glazesOf(12)[11].Code}}
	more := extend(t, s, glazesOf(12), r.Tiles)
	require.Equal(t, r.Tiles, more.Tiles[:16:16])
	first, _, _ := partners(more.Tiles)
	require.Len(t, first, 6)
	require.Contains(t, first, glazesOf(12)[11].Code)
	require.Len(t, more.Tiles, 36)
	s.Part = tiles.Portion{Glazes: 12}
	require.Len(t, extend(t, s, glazesOf(12), more.Tiles).Tiles, 144)
}
