package plan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content"
)

// TestFullHoldsWhatALoadHolds.
func TestFullHoldsWhatALoadHolds(t *testing.T) {
	s := content.Defaults()
	n := 0
	for _, shelf := range Full(s) {
		n += len(shelf.Places)
		for i, p := range shelf.Places {
			a := around(p.X, p.Y, p.Width, p.Depth)
			require.True(t, a.on(shelf.Shelf))
			for _, q := range shelf.Places[:i] {
				require.False(t, a.overlaps(around(q.X, q.Y, q.Width, q.Depth)))
			}
		}
	}
	require.Equal(t, Holds(s), n)
	require.Positive(t, n)
}
