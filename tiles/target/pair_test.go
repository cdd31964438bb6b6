package target

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestTheMatForTwoFitsItsPaper(t *testing.T) {
	for _, paper := range []string{"a4", "letter"} {
		for _, tile := range [][2]float64{{40, 80}, {50, 75}, {75, 130}, {60, 60}, {30, 30}} {
			p, err := PairMat(settings(paper, tile[0], tile[1]))
			require.NoError(t, err, "%v on %s", tile, paper)
			checkSpots(t, p, p.Spots())
			require.Len(t, p.Spots(), 2)
			require.Less(t, p.Tile.X+p.Tile.W, p.Beside.Tile.X)
		}
	}
	for _, tile := range [][2]float64{{80, 80}, {50, 160}, {0, 80}} {
		_, err := PairMat(settings("a4", tile[0], tile[1]))
		require.ErrorContains(t, err, "wall.yaml: ", "%v", tile)
	}
}

// The marks of the two mats are the same four, none in the same corner.
func TestTheMarksOfTheTwoMatsStandOtherwise(t *testing.T) {
	one, err := Mat(settings("a4", 50, 80))
	require.NoError(t, err)
	two, err := PairMat(settings("a4", 50, 80))
	require.NoError(t, err)
	seen := map[int]bool{}
	for i := range one.Marks {
		require.Equal(t, one.Marks[i].Rect, two.Marks[i].Rect)
		require.Equal(t, one.Marks[i].ID, two.Marks[(i+1)%4].ID, "a corner further clockwise")
		seen[two.Marks[i].ID] = true
	}
	require.Len(t, seen, 4)
}
