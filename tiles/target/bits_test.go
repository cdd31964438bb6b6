package target

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestBlackHasABorder(t *testing.T) {
	white := Bits(1<<36 - 1)
	black := 0
	for y := range Cells {
		for x := range Cells {
			if white.Black(x, y) {
				black++
			}
		}
	}
	require.Equal(t, 28, black, "an all-white code keeps the border of 28 cells")
}

func TestRunsCoverTheBlackCells(t *testing.T) {
	for id := range codes {
		var got [Cells][Cells]bool
		for _, r := range codes[id].Runs() {
			for x := r.X; x < r.X+r.Length; x++ {
				require.False(t, got[r.Y][x], "a cell inked twice")
				got[r.Y][x] = true
			}
		}
		for y := range Cells {
			for x := range Cells {
				require.Equal(t, codes[id].Black(x, y), got[y][x])
			}
		}
	}
}

func TestTurn(t *testing.T) {
	topLeft := Bits(1 << 35)
	require.True(t, topLeft.White(0, 0))
	require.True(t, topLeft.Turn().White(5, 0), "a quarter to the right takes the top left cell to the top right")
	for _, c := range codes {
		require.Equal(t, c, c.Turn().Turn().Turn().Turn())
	}
}
