package photo_test

import (
	"bytes"
	"image/jpeg"
	"path"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The pictures of real photos fit the bytes they are given, and none is smaller
// than the smaller of the two sizes.
func TestAPictureFitsItsBytes(t *testing.T) {
	const most = 104_000
	for _, file := range []string{
		"photos/camera/heic/iphone11pro-p3.heic", "photos/ceramic/phone-cups/cups-on-metal-tray.jpg",
		"photos/ceramic/phone-cups/jug-white-transfer-print.jpg", "photos/camera/jpeg/sony-mavica-watch.jpg",
	} {
		p := open(t, file)
		small := p.Small(p.Image.Bounds(), 1280)
		whole, err := small.JPEG(0)
		require.NoError(t, err)
		require.Greater(t, len(whole), most, file)
		fits, err := small.JPEG(most)
		require.NoError(t, err)
		size, err := jpeg.DecodeConfig(bytes.NewReader(fits))
		require.NoError(t, err)
		assert.LessOrEqual(t, len(fits), most, file)
		assert.Contains(t, []int{1280, 1040}, max(size.Width, size.Height), file)
		t.Logf("%s: %d bytes, then %d, %d x %d", path.Base(file), len(whole), len(fits), size.Width, size.Height)
		again, err := small.JPEG(len(whole))
		require.NoError(t, err)
		assert.True(t, bytes.Equal(whole, again), "what fits is left as it is")
	}
}
