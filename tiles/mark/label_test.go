package mark

import (
	"image"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/target"
)

// codeAt draws a QR code, px pixels a module, in the middle of a grey picture.
func codeAt(t *testing.T, payload string, px, w, h int) Plane {
	code, err := target.NewQR(payload)
	require.NoError(t, err)
	g := image.NewGray(image.Rect(0, 0, w, h))
	for i := range g.Pix {
		g.Pix[i] = 210
	}
	x0, y0 := (w-code.Modules()*px)/2, (h-code.Modules()*px)/2
	for y := range code.Modules() * px {
		for x := range code.Modules() * px {
			if code.Dark(x/px, y/px) {
				g.Pix[g.PixOffset(x0+x, y0+y)] = 40
			}
		}
	}
	return Gray(g)
}

func TestAnyLabelReadsATilesCodeOnly(t *testing.T) {
	l, ok := AnyLabel(codeAt(t, tiles.Number(12).Payload("https://wall.example/site"), 6, 500, 400))
	require.True(t, ok)
	require.Equal(t, tiles.Number(12), l.Tile)
	l, ok = AnyLabel(codeAt(t, "TILE 7", 8, 500, 400))
	require.True(t, ok)
	require.Equal(t, tiles.Number(7), l.Tile)
	_, ok = AnyLabel(codeAt(t, "https://shop.example/tile/7", 6, 500, 400))
	require.False(t, ok, "another code")
	_, ok = AnyLabel(Plane{W: 500, H: 400, Stride: 500, Pix: make([]uint8, 500*400)})
	require.False(t, ok, "no code")
	_, ok = AnyLabel(Plane{W: 3, H: 3, Stride: 3, Pix: make([]uint8, 9)})
	require.False(t, ok, "hardly a picture")
}
