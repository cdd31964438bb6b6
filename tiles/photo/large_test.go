package photo_test

import (
	"bytes"
	"image"
	"image/jpeg"
	"image/png"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/tiff"

	"github.com/twodip/twodip/tiles/photo"
)

// What is large is told from the header, by the samples and not by the file.
func TestLarge(t *testing.T) {
	for _, c := range []struct {
		width, height int
		png, tiffs    bool
	}{
		{4000, 3000, false, true}, {6000, 4000, true, true}, {9000, 8000, true, true}, {40, 30, false, false},
	} {
		var j, p, f bytes.Buffer
		gray := image.NewGray(image.Rect(0, 0, c.width, c.height))
		require.NoError(t, jpeg.Encode(&j, gray, nil))
		colors := image.NewNRGBA(gray.Rect)
		require.NoError(t, (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&p, colors))
		require.NoError(t, tiff.Encode(&f, gray, nil))
		assert.Equal(t, c.width*c.height > 64<<20, photo.Large(j.Bytes()), "gray JPEG %d", c.width)
		assert.Equal(t, c.png, photo.Large(p.Bytes()), "PNG %d", c.width)
		assert.Equal(t, c.tiffs, photo.Large(f.Bytes()), "TIFF %d", c.width)
	}
	assert.False(t, photo.Large([]byte("no picture")))
}
