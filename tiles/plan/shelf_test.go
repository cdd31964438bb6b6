package plan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

// A 90 mm tile needs 125 mm posts (common practice, no source).
func TestClearance(t *testing.T) {
	s := tiles.Settings{Tile: tiles.Shape{Width: 60, Height: 90, Thickness: 6}, Kiln: tiles.Kiln{Upright: true}}
	require.Equal(t, 125.0, clearance(s))
	s.Tile.Height = 250
	require.Equal(t, 275.0, clearance(s), "a 200 mm post on a 75 mm one")
	s.Kiln.Upright = false
	require.Equal(t, 25.0, clearance(s), "a flat tile")
}

func TestPostsStandOnTheShelf(t *testing.T) {
	for _, shape := range []string{"rectangle", "round", "half-round"} {
		shelf := tiles.Shelf{Shape: shape, Width: 400}
		ps := posts(shelf, 40)
		require.Len(t, ps, 3, shape)
		for i, p := range ps {
			require.True(t, around(p.X, p.Y, p.Side, p.Side).on(shelf), "%s post %d at %g, %g", shape, i, p.X, p.Y)
		}
	}
}
