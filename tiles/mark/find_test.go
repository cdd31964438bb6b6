package mark

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/target"
)

func TestMarksAreFoundAndTurned(t *testing.T) {
	m := target.Mark{ID: 6, Bits: target.Code(6), Rect: target.Rect{X: 30, Y: 25, W: 40, H: 40}}
	for turns := range 4 {
		found, _ := Find(board(100, 90, 5, m))
		require.Len(t, found, 1)
		require.Equal(t, 6, found[0].ID)
		corners := m.Corners()
		for k := range 4 {
			want := geometry.Point{X: corners[(k+turns)%4][0] * 5, Y: corners[(k+turns)%4][1] * 5}
			require.InDelta(t, 0, found[0].Quad[k].Distance(want), 0.3, "its own corner %d after %d turns", k, turns)
		}
		m.Bits = m.Bits.Turn()
	}
}

// A finer look is taken until the whole mat or most of the board is found.
func TestEnoughMarks(t *testing.T) {
	marks := func(ids ...int) (out []Found) {
		for _, id := range ids {
			out = append(out, Found{ID: id})
		}
		return out
	}
	require.True(t, enough(marks(0, 1, 2, 3)))
	require.False(t, enough(marks(0, 1, 2)))
	require.True(t, enough(marks(4, 5, 6, 7, 8, 9)))
	require.False(t, enough(marks(4, 5, 6, 7, 8)))
	require.False(t, enough(marks(0, 1, 2, 4, 5)))
}
