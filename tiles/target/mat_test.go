package target

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

func settings(paper string, width, height float64) tiles.Settings {
	return tiles.Settings{Paper: paper, Tile: tiles.Shape{Width: width, Height: height, Thickness: 8}}
}

// Paper sizes: ISO 216 for A4 and ANSI A for Letter.
func TestMatFitsItsPaper(t *testing.T) {
	for paper, size := range map[string][2]float64{"a4": {210, 297}, "letter": {215.9, 279.4}, "A4": {210, 297}} {
		for _, tile := range [][2]float64{{40, 80}, {50, 75}, {100, 150}, {90, 90}, {30, 30}} {
			p, err := Mat(settings(paper, tile[0], tile[1]))
			require.NoError(t, err, "%v on %s", tile, paper)
			require.Equal(t, size, [2]float64{p.Width, p.Height})
			checkSpots(t, p, p.Spots(), p.Reference)
			require.GreaterOrEqual(t, len(p.Paper), 5)
		}
	}
}

// checkSpots holds the places of a page clear of each other.
func checkSpots(t *testing.T, p Page, spots []Spot, more ...Rect) {
	t.Helper()
	paper := Rect{W: p.Width, H: p.Height}.Grow(-6.35)
	all := append(append(more, p.Words), p.Paper...)
	for _, s := range spots {
		all = append(all, s.TilePlace, s.Label)
	}
	for _, m := range p.Marks {
		all = append(all, m.Quiet())
		for _, s := range spots {
			require.False(t, m.Grow(15).overlaps(s.Tile), "the tile stands 15 mm clear of every mark")
		}
		require.True(t, m.inside(paper), "a mark where printers ink")
	}
	for i, r := range all {
		require.True(t, r.W > 0 && r.H > 0, "%v", r)
		require.True(t, r.inside(Rect{W: p.Width, H: p.Height}), "%v", r)
		for j, q := range all[:i] {
			require.False(t, r.overlaps(q), "place %d %v over place %d %v", i, r, j, q)
		}
	}
	require.GreaterOrEqual(t, len(p.Paper), 3)
}

func TestMatRefusesWhatDoesNotFit(t *testing.T) {
	for _, tile := range [][2]float64{{150, 100}, {100, 300}, {0, 80}, {-1, 5}} {
		_, err := Mat(settings("letter", tile[0], tile[1]))
		require.ErrorContains(t, err, "wall.yaml: ", "%v", tile)
	}
}
