package plan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

func tile(n tiles.Number, first, second string) tiles.Tile {
	return tiles.Tile{Number: n, Pair: tiles.Pair{First: first, Second: second}}
}

func known(n tiles.Number, first, second string) Given {
	return Given{Number: n, Pair: tiles.Pair{First: first, Second: second}, By: "tiles/measured.csv"}
}

// TestHeldNoticesWhatBecameOfTheNumbers goes through what happens to a plan.
func TestHeldNoticesWhatBecameOfTheNumbers(t *testing.T) {
	ts := []tiles.Tile{tile(1, "A", ""), tile(2, "B", ""), tile(3, "A", "B"), tile(4, "B", "A")}
	given := []Given{known(1, "a", ""), known(3, "A", "B"), known(4, "B", "A"), known(3, "A", "B")}
	for _, c := range []struct {
		name  string
		plan  []tiles.Tile
		says  string
		quiet bool
	}{
		{name: "as it was", plan: ts, quiet: true},
		{name: "its rows sorted", plan: []tiles.Tile{ts[3], ts[0], ts[2], ts[1]}, quiet: true},
		{name: "with a new tile", plan: append([]tiles.Tile{tile(5, "C", "")}, ts...), quiet: true},
		{name: "lost", says: "tiles/plan.csv: 3 tiles stand in tiles/measured.csv and have no row here, tile 1 the first: the file was lost, cut short or replaced by an older one; twodip restore tiles/plan.csv brings it back as it was"},
		{name: "a row deleted", plan: ts[:3], says: "tiles/plan.csv: tile 4 stands in tiles/measured.csv and has no row here: the row was deleted, or the file replaced by an older one; twodip restore tiles/plan.csv brings it back as it was"},
		{name: "one column sorted by itself", plan: []tiles.Tile{tile(1, "A", ""), tile(2, "A", ""), tile(3, "B", "B"), tile(4, "B", "A")},
			says: "tiles/plan.csv: tile 3 is 1st A → 2nd B in tiles/measured.csv and 1st B → 2nd B again here; twodip restore tiles/plan.csv brings it back as it was"},
		{name: "both coats swapped", plan: []tiles.Tile{ts[0], ts[1], tile(3, "B", "A"), tile(4, "A", "B")},
			says: "tiles/plan.csv: tile 3 is 1st A → 2nd B in tiles/measured.csv and 1st B → 2nd A here, and so with 2 tiles in all: a column was sorted by itself, or the file replaced; twodip restore tiles/plan.csv brings it back as it was"},
	} {
		clash := Held(c.plan, given)
		require.Equal(t, c.quiet, clash.None(), c.name)
		if !c.quiet {
			require.EqualError(t, clash.Problems("tiles/plan.csv", Back{"twodip restore tiles/plan.csv", "2 Jan 2026, 10:00:00"}), c.says, c.name)
		}
	}
}

// TestRenamedOnlyWhereItExplainsAll: a code typed over another everywhere is a
// new name of the bucket; anything beside it is not.
func TestRenamedOnlyWhereItExplainsAll(t *testing.T) {
	given := []Given{known(1, "QM", ""), known(2, "QM", "FG"), known(3, "FG", "QM")}
	typed := []tiles.Tile{tile(1, "QZ", ""), tile(2, "QZ", "FG"), tile(3, "FG", "QZ")}
	old, now, ok := Held(typed, given).Renamed()
	require.True(t, ok)
	require.Equal(t, [2]string{"QM", "QZ"}, [2]string{old, now})

	typed[2] = tile(3, "QZ", "FG")
	_, _, ok = Held(typed, given).Renamed()
	require.False(t, ok)
}

// TestGivenByReadingsSaysEachTileOnce, and twice where the readings disagree.
func TestGivenByReadingsSaysEachTileOnce(t *testing.T) {
	a, b := tiles.Pair{First: "A"}, tiles.Pair{First: "A", Second: "B"}
	given := GivenByReadings([]tiles.Reading{{Tile: 7, Carried: a}, {Tile: 7, Carried: a}, {Tile: 7, Carried: b}, {Tile: 8}}, "tiles/measured.csv")
	require.Len(t, given, 3)
	clash := Held([]tiles.Tile{tile(7, "A", ""), tile(8, "X", "Y")}, given)
	require.Equal(t, []Given{{Number: 7, Pair: b, By: "tiles/measured.csv"}}, clash.Other)
}
