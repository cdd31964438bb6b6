package mark

import (
	"image"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/target"
)

// tileOn draws a tile of a light on paper, px pixels a mm.
func tileOn(paper, face uint8, l laid, px float64) Plane {
	g := image.NewGray(image.Rect(0, 0, 600, 800))
	s, c := math.Sincos(l.turn * math.Pi / 180)
	for y := range 800 {
		for x := range 600 {
			dx, dy := (float64(x)+0.5)/px-l.x, (float64(y)+0.5)/px-l.y
			u, v := dx*c+dy*s, -dx*s+dy*c
			g.Pix[y*g.Stride+x] = paper
			if math.Abs(u) < l.w/2 && math.Abs(v) < l.h/2 {
				g.Pix[y*g.Stride+x] = face + uint8(x*7+y*13)%9
			}
		}
	}
	return Gray(g)
}

func TestSettleFindsATileThatLiesAskew(t *testing.T) {
	v := straight(6)
	place := target.Rect{X: 25, Y: 25, W: 50, H: 80}
	for _, l := range []laid{{50, 65, 50, 80, 0}, {53, 62, 50, 80, 4}, {47, 68, 49, 79, -5.5}} {
		for _, face := range []uint8{20, 120, 240} {
			got, ok := lookAt(tileOn(200, face, l, 6), nil).settle(&v, place, 0)
			require.True(t, ok)
			want := l.corners()
			for i, c := range got.corners() {
				require.Less(t, c.Distance(want[i]), 1.0, "%v on %d: %v", l, face, got)
			}
		}
	}
}

func TestSettleLeavesWhatDoesNotShow(t *testing.T) {
	v := straight(6)
	place := target.Rect{X: 25, Y: 25, W: 50, H: 80}
	_, ok := lookAt(tileOn(200, 196, laid{50, 65, 50, 80, 0}, 6), nil).settle(&v, place, 0)
	require.False(t, ok, "a tile as light as the paper")
}
