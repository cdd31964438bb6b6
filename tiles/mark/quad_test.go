package mark

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestQuadOfASquare(t *testing.T) {
	var rows []string
	for y := range 60 {
		row := make([]byte, 60)
		for x := range row {
			row[x] = '.'
			// A square of 20√2 on its corner.
			if abs(x-30)+abs(y-30) <= 20 {
				row[x] = '#'
			}
		}
		rows = append(rows, string(row))
	}
	bits, stride := bitmap(rows...)
	found := 0
	outlines(bits, stride, func(c contour) {
		q, ok := c.quad()
		require.True(t, ok)
		found++
		require.InDelta(t, 2*20.5*20.5, q.Area(), 40)
		require.InDelta(t, 30.5, (q[0].X+q[1].X+q[2].X+q[3].X)/4, 0.3)
		require.InDelta(t, 30.5, (q[0].Y+q[1].Y+q[2].Y+q[3].Y)/4, 0.3)
	})
	require.Equal(t, 1, found)
}

func TestADiscIsNoQuad(t *testing.T) {
	var rows []string
	for y := range 60 {
		row := make([]byte, 60)
		for x := range row {
			row[x] = '.'
			if (x-30)*(x-30)+(y-30)*(y-30) <= 400 {
				row[x] = '#'
			}
		}
		rows = append(rows, string(row))
	}
	bits, stride := bitmap(rows...)
	outlines(bits, stride, func(c contour) {
		_, ok := c.quad()
		require.False(t, ok)
	})
}

func abs(x int) int { return max(x, -x) }
