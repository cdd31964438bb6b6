package measure_test

import (
	"image"
	stdcolor "image/color"
	"image/draw"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/measure"
)

const cups = "photos/ceramic/phone-cups/"

func readFile(t *testing.T, path string, hand []tiles.ByHand) tiles.Reading {
	t.Helper()
	data, err := os.ReadFile(shared(t, path))
	require.NoError(t, err)
	ask := measure.Ask{Wall: wall(), Photo: "1.jpg"}
	ask.Wall.Hand = hand
	var r measure.Reader
	res, err := r.Read(data, ask)
	require.NoError(t, err, path)
	return res.Readings[0]
}

func drawn(x0, y0, x1, y1 float64) []tiles.ByHand {
	return []tiles.ByHand{{Photo: "1.jpg", Tile: 1, Drawn: true, Outline: [4][2]float64{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}}}
}

// Phone photographs of glazed cups in uncontrolled light, without EXIF and
// without a profile (SOURCE.txt beside them: what a reading must show).
func TestPhonePhotosOfCups(t *testing.T) {
	files, err := filepath.Glob(shared(t, cups) + "/*.jpg")
	require.NoError(t, err)
	for _, f := range files {
		r := readFile(t, cups+filepath.Base(f), nil)
		assert.Equal(t, "sRGB assumed", r.Profile, f)
		assert.Empty(t, r.Taken, f)
		assert.Equal(t, tiles.ClassCamera, r.Class, f)
		assert.True(t, color.Lab{L: r.L, A: r.A, B: r.B}.Real(), f)
	}
}

func TestADarkRoomIsSaid(t *testing.T) {
	r := readFile(t, cups+"mug-white-dark-room.jpg", nil)
	assert.Contains(t, r.Warning, "very dark")
	assert.Less(t, r.L, 95.0, "a white mug in the dark is not reported as white")
	for _, lit := range []string{"cup-white-tea.jpg", "mug-black-white-purple-cloth.jpg"} {
		assert.NotContains(t, readFile(t, cups+lit, nil).Warning, "very dark", lit)
	}
}

// A region of glaze drawn by hand and moved by a few per cent gives the same
// color within 2 ΔE00 (SOURCE.txt).
func TestAHandDrawnRegionMayBeMovedALittle(t *testing.T) {
	for file, q := range map[string][4]float64{
		"mug-white-dark-room.jpg": {1050, 700, 1550, 1100},
		"cup-white-tea.jpg":       {1600, 1100, 2300, 1700},
	} {
		base := readFile(t, cups+file, drawn(q[0], q[1], q[2], q[3]))
		assert.Equal(t, measure.FoundByHand, base.Found)
		dx, dy := 0.03*(q[2]-q[0]), 0.03*(q[3]-q[1])
		for _, m := range [][2]float64{{dx, 0}, {-dx, dy}, {0, -dy}} {
			moved := readFile(t, cups+file, drawn(q[0]+m[0], q[1]+m[1], q[2]+m[0], q[3]+m[1]))
			assert.Less(t, color.DE00(labOfReading(base), labOfReading(moved)), 2.0, file)
		}
	}
}

// Objects of one color with highlights, each surface outlined by hand in a mask
// (SOURCE.txt): the reading's color has less lightness and more chroma than
// the plain mean, because the highlights are left out.
func TestHighlightsAreLeftOut(t *testing.T) {
	// The middle of the red helmet, with its lamp's reflection.
	const file = "photos/glossy/specular_8_bit_plastic-2.tif"
	r := readFile(t, file, drawn(60, 200, 300, 380))
	assert.Less(t, r.Kept, 1.0)
	assert.Greater(t, color.Lab{L: r.L, A: r.A, B: r.B}.Chroma(), 55.0, "a saturated red")
}

// A hard shadow on the ground, and one across the tile, are said.
func TestHardShadowsAreSaid(t *testing.T) {
	ground := tilePicture(rust, rust, rust)
	shade := func(img *image.RGBA, r image.Rectangle, share float64) {
		for y := r.Min.Y; y < r.Max.Y; y++ {
			for x := r.Min.X; x < r.Max.X; x++ {
				c := img.RGBAAt(x, y)
				dim := func(v uint8) uint8 { return uint8(255*color.Encoded(share*color.Linear(float64(v)/255)) + 0.5) }
				img.SetRGBA(x, y, stdcolor.RGBA{dim(c.R), dim(c.G), dim(c.B), 255})
			}
		}
	}
	shade(ground, image.Rect(600, 300, 760, 900), 0.45)
	assert.Contains(t, readPicture(t, ground).Warning, "hard shadow")
	across := tilePicture(rust, rust, rust)
	shade(across, image.Rect(200, 200, 330, 800), 0.5)
	assert.Contains(t, readPicture(t, across).Warning, "shadow")
	assert.Empty(t, readPicture(t, tilePicture(rust, rust, rust)).Warning)
}

func readPicture(t *testing.T, img image.Image) tiles.Reading {
	t.Helper()
	return read(t, pngOf(t, img), "1.png").Readings[0]
}

// A picture out of focus is said to be soft, and its color hardly moves.
func TestASoftPictureIsSaid(t *testing.T) {
	sharp := tilePicture(rust, rust, rust)
	for i := range 40 {
		x := 220 + i%8*45
		y := 220 + i/8*110
		draw.Draw(sharp, image.Rect(x, y, x+20, y+60), image.NewUniform(milk), image.Point{}, draw.Src)
	}
	blurred := blur(sharp, 9)
	p, q := readPicture(t, sharp), readPicture(t, blurred)
	assert.False(t, p.Soft)
	assert.True(t, q.Soft)
	assert.Less(t, color.DE00(labOfReading(p), labOfReading(q)), 1.0)
}

// blur averages the light over a square three times, as a lens out of focus
// nearly does.
func blur(img *image.RGBA, size int) *image.RGBA {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	light := make([]float64, 3*w*h)
	for i := range w * h {
		for c := range 3 {
			light[3*i+c] = color.Linear(float64(img.Pix[4*i+c]) / 255)
		}
	}
	half := size / 2
	for range 3 {
		light = smear(light, w, 3, half)   // across
		light = smear(light, w, 3*w, half) // down
	}
	out := image.NewRGBA(img.Rect)
	for i := range w * h {
		for c := range 3 {
			out.Pix[4*i+c] = uint8(255*color.Encoded(light[3*i+c]) + 0.5)
		}
		out.Pix[4*i+3] = 255
	}
	return out
}

// smear averages each value with those up to half steps away on both sides.
func smear(in []float64, w, step, half int) []float64 {
	out := make([]float64, len(in))
	for i := range in {
		sum, n := 0.0, 0
		for d := -half; d <= half; d++ {
			j := i + d*step
			if j >= 0 && j < len(in) && (step > 3 || j/(3*w) == i/(3*w)) {
				sum += in[j]
				n++
			}
		}
		out[i] = sum / float64(n)
	}
	return out
}
