package mark

import (
	"image"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestSharpeningUndoesABlur(t *testing.T) {
	g := image.NewGray(image.Rect(0, 0, 60, 20))
	for y := range 20 {
		for x := range 60 {
			g.Pix[y*60+x] = uint8(100 + 60*math.Tanh(float64(x-30)/3))
		}
	}
	s := sharpened(g, 2, 2)
	step := func(g *image.Gray) int { return int(g.Pix[10*60+32]) - int(g.Pix[10*60+28]) }
	require.Greater(t, step(s), step(g)*5/4)
	require.InDelta(t, float64(g.Pix[10*60+5]), float64(s.Pix[10*60+5]), 2, "even parts stay")
}
