package foresee

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

func reading(n tiles.Number, z tiles.Zone, l float64) tiles.Reading {
	return tiles.Reading{Tile: n, Zone: z, L: l, A: 1, B: 2, Doubt: 1}
}

func TestAWallsTilesHaveTheirPlaces(t *testing.T) {
	w := tiles.Wall{
		Glazes: []tiles.Glaze{{Code: "A"}, {Code: "B"}, {Code: "C"}, {Code: "D"}},
		Tiles: []tiles.Tile{
			{Number: 1, Pair: tiles.Pair{First: "a"}, Status: tiles.Fired},
			{Number: 2, Pair: tiles.Pair{First: "B", Second: "B"}, Status: tiles.Fired},
			{Number: 3, Pair: tiles.Pair{First: "A", Second: "C"}, Status: tiles.Fired, Load: 2},
			{Number: 4, Pair: tiles.Pair{First: "A", Second: "B"}, Status: tiles.Retired},
			{Number: 5, Pair: tiles.Pair{First: "A", Second: "B"}, Status: tiles.Fired},
			{Number: 6, Pair: tiles.Pair{First: "A", Second: "B"}, Status: tiles.Fired, Repeats: 5},
			{Number: 7, Pair: tiles.Pair{First: "C", Second: "B"}, Status: tiles.Planned},
			{Number: 8, Pair: tiles.Pair{First: "B", Second: "A"}, Status: tiles.Fired},
		},
		Readings: []tiles.Reading{
			reading(1, tiles.ZoneWhole, 10), reading(2, tiles.ZoneWhole, 20),
			reading(3, tiles.ZoneOverlap, 30), reading(3, tiles.ZoneSecond, 33),
			reading(4, tiles.ZoneWhole, 40), reading(5, tiles.ZoneWhole, 50), reading(6, tiles.ZoneWhole, 60),
			reading(8, tiles.ZoneFirst, 80),
		},
	}
	f := OfWall(w)
	assert.Equal(t, []string{"A", "B", "C"}, f.Codes, "nothing shows D alone")
	assert.Equal(t, []color.Lab{{L: 10, A: 1, B: 2}, {L: 20, A: 1, B: 2}, {L: 33, A: 1, B: 2}}, roundedAll(f.Singles), "a single, a double, a zone")
	assert.Equal(t, []tiles.Number{3, 5}, f.Tiles, "own tiles with the pair's color, those in use first")
	assert.Equal(t, []int{2, 0}, f.Loads)
	c, ok := f.Cell(tiles.Pair{First: "c", Second: "b"})
	require.True(t, ok)
	assert.Equal(t, tiles.Pair{First: "C", Second: "B"}, f.Pair(c))
	for _, p := range []tiles.Pair{{First: "A"}, {First: "A", Second: "A"}, {First: "A", Second: "D"}} {
		_, ok := f.Cell(p)
		assert.False(t, ok, "%s has no guess", p)
	}
	assert.False(t, f.Standing().Speaks)
}

func roundedAll(cs []color.Lab) (out []color.Lab) {
	for _, c := range cs {
		out = append(out, color.Lab{L: float64(int(c.L + 0.5)), A: float64(int(c.A + 0.5)), B: float64(int(c.B + 0.5))})
	}
	return out
}

// A wall without any tile, without glazes, and with more fired than is learnt
// from.
func TestWallsOfNothingAndOfVeryMuch(t *testing.T) {
	assert.Empty(t, OfWall(tiles.Wall{}).Pairs)
	assert.Empty(t, OfWall(tiles.Wall{}).Record())
	var many []int
	for k := range 5000 {
		many = append(many, k)
	}
	few := thinned(many, 1500)
	assert.Len(t, few, 1500)
	assert.Equal(t, 0, few[0])
	assert.Greater(t, few[1499], 4990)
}
