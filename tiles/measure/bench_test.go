package measure_test

import (
	"bytes"
	"image"
	"image/jpeg"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content/demo"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/measure"
)

// twelveMegapixels is a photo of a made tile as a phone would store it: 4032 by
// 3024 with the sensor's noise, so that decoding it costs what a photo's does.
func twelveMegapixels(t testing.TB) []byte {
	t.Helper()
	shape := wall().Settings.Tile
	tile, _ := demo.NewStudio(shape, demo.Seed).Picture(tiles.Tile{Number: 2, Pair: tiles.Pair{First: "QM", Second: "LR"}})
	img := image.NewRGBA(image.Rect(0, 0, 3024, 4032))
	noise := rand.New(rand.NewPCG(1, 2))
	for y := range 4032 {
		for x := range 3024 {
			from := tile.Pix[tile.PixOffset(x*tile.Rect.Dx()/3024, y*tile.Rect.Dy()/4032):]
			n := int(noise.NormFloat64() * 2)
			to := img.Pix[img.PixOffset(x, y):]
			for c := range 3 {
				to[c] = uint8(max(0, min(255, int(from[c])+n)))
			}
			to[3] = 255
		}
	}
	var buf bytes.Buffer
	require.NoError(t, jpeg.Encode(&buf, img, &jpeg.Options{Quality: 92}))
	return buf.Bytes()
}

// One photo of 12 megapixels to its readings and both its pictures.
func BenchmarkPhotoToReadingAndPictures(b *testing.B) {
	data := twelveMegapixels(b)
	ask := measure.Ask{Wall: wall(), Photo: "2.jpg"}
	var r measure.Reader
	b.ReportAllocs()
	for b.Loop() {
		_, err := r.Read(data, ask)
		require.NoError(b, err)
	}
}

// The same where only the pictures are made again.
func BenchmarkPhotoToPictures(b *testing.B) {
	data := twelveMegapixels(b)
	ask := measure.Ask{Wall: wall(), Photo: "2.jpg"}
	for b.Loop() {
		_, err := measure.Pictures(data, ask)
		require.NoError(b, err)
	}
}
