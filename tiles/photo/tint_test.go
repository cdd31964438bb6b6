package photo

import (
	"image"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestTintIsTheTwoDifferencesOfColor(t *testing.T) {
	v := image.NewYCbCr(image.Rect(0, 0, 7, 5), image.YCbCrSubsampleRatio420)
	v.Cr[v.COffset(6, 4)] = 200
	tint := (&Photo{Image: v}).Tint()
	require.Len(t, tint, 2)
	require.Equal(t, image.Rect(0, 0, 4, 3), tint[1].Rect)
	require.Equal(t, uint8(200), tint[1].GrayAt(3, 2).Y)
	require.Empty(t, (&Photo{Image: image.NewGray(v.Rect)}).Tint())
}
