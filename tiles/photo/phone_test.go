package photo_test

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Genuine phone HEICs (SOURCE.txt beside them): upright once and not twice,
// with their profile, date and lens.
func TestPhoneHEICs(t *testing.T) {
	if testing.Short() {
		t.Skip("decoding a phone's HEIC takes seconds; run without -short")
	}
	const dir = "photos/camera/heic/"
	for file, size := range map[string][2]int{"iphonexr-p3-orient6.heic": {3024, 4032}, "iphone8-p3.heic": {4032, 3024}} {
		p := open(t, dir+file)
		assert.Equal(t, size, [2]int{p.Width(), p.Height()}, file)
		assert.Equal(t, "Display P3", p.Profile.String(), file)
		assert.NotEmpty(t, p.Taken, file)
		assert.Equal(t, 28.0, p.Focal, file)
	}
}

// What is published of a photo holds no EXIF, no place, no camera: neither the
// blocks that carry them nor the words in them. The photo itself does.
func TestPublishedPicturesHoldOnlyThePicture(t *testing.T) {
	for file, word := range map[string]string{
		"photos/camera/jpeg/nokia-lumia800-gps-srgb-icc.jpg":  "Nokia",
		"photos/camera/p3-mpf-gainmap/apple_gainmap_new.jpg":  "Apple",
		"photos/camera/p3-mpf-gainmap/paris_exif_xmp_icc.jpg": "Pixel",
	} {
		raw, err := os.ReadFile(shared(t, file))
		require.NoError(t, err)
		require.Contains(t, string(raw), word, "%s: the photo names its camera", file)
		p := open(t, file)
		for _, longest := range []int{1280, 320} {
			out, err := p.Small(p.Image.Bounds(), longest).JPEG(0)
			require.NoError(t, err)
			for _, secret := range []string{"Exif", "ICC_PROFILE", "http", "MPF", word} {
				assert.NotContains(t, string(out), secret, file)
			}
			for _, mark := range []byte{0xe1, 0xe2, 0xed, 0xfe} {
				assert.False(t, bytes.Contains(out[:600], []byte{0xff, mark}), "%s: segment %x", file, mark)
			}
		}
	}
}

// A P3 photo is published in sRGB: its colors are converted, not relabelled.
func TestAWidePhotoIsPublishedInSRGB(t *testing.T) {
	p := open(t, "photos/known-patches/patches_displayp3_8bit.png")
	srgb := open(t, "photos/known-patches/patches_srgb_8bit.png")
	small := p.Small(p.Image.Bounds(), 1280)
	at := func(x, y int) [3]int {
		r, g, b, _ := small.At(x, y).RGBA()
		return [3]int{int(r >> 8), int(g >> 8), int(b >> 8)}
	}
	row := make([]uint16, 3)
	for _, x := range []int{48, 128, 208, 288} {
		srgb.Codes(48, x, x+1, row)
		got := at(x, 48)
		for c := range 3 {
			assert.InDelta(t, float64(row[c]), float64(got[c]), 4, "patch at %d", x)
		}
	}
}
