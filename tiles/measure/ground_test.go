package measure_test

import (
	"image"
	stdcolor "image/color"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/measure"
)

// onGround is an invented photo of a tile on a sheet of one color, both in
// light that falls off to one side by a third and is too warm, too dark.
func onGround(sheet, tile color.Lab) image.Image {
	random := rand.New(rand.NewPCG(41, 42))
	img := image.NewRGBA(image.Rect(0, 0, 900, 1200))
	for y := range 1200 {
		for x := range 900 {
			c := sheet
			if x >= 250 && x < 650 && y >= 300 && y < 900 {
				c = tile
			}
			r, g, b := c.XYZ().LinearSRGB()
			fall := (1 - 0.33*float64(x)/900) * (1 + 0.02*random.NormFloat64())
			img.Set(x, y, stdcolor.RGBA{byteOf(0.80 * fall * r), byteOf(0.70 * fall * g), byteOf(0.55 * fall * b), 255})
		}
	}
	return img
}

func byteOf(light float64) uint8 {
	return uint8(math.Round(255 * color.Encoded(min(max(light, 0), 1))))
}

func readOnGround(t *testing.T, sheet, tile color.Lab, patches ...color.Patch) (tiles.Reading, []string) {
	w := wall()
	w.Photo.Reference = "ground"
	var r measure.Reader
	got, err := r.Read(jpegOf(t, onGround(sheet, tile)), measure.Ask{Wall: w, Photo: "1.jpg", Patches: patches})
	require.NoError(t, err)
	return got.Readings[0], got.Notes
}

func TestAGreySheetUnderTheTileCorrectsIt(t *testing.T) {
	sheet := color.Patch{Name: "grey sheet", Lab: color.Lab{L: 64}, Neutral: true}
	for _, tile := range []color.Lab{{L: 38, A: 18, B: 22}, {L: 80, A: -3, B: 12}, {L: 45, A: -8, B: -20}} {
		got, notes := readOnGround(t, sheet.Lab, tile, sheet)
		assert.Empty(t, notes)
		assert.Equal(t, tiles.ClassGrey, got.Class)
		assert.Equal(t, "grey ground", got.Correction)
		assert.Less(t, apart(got, tile), 1.0, "%v came out as %.1f %.1f %.1f", tile, got.L, got.A, got.B)
	}
	// Without a file of one patch the sheet is an 18 % grey card.
	got, _ := readOnGround(t, color.Lab{L: 49.5}, color.Lab{L: 80, A: -3, B: 12})
	assert.Less(t, apart(got, color.Lab{L: 80, A: -3, B: 12}), 1.0)
}

func TestAGroundThatIsNotGreyIsNotUsed(t *testing.T) {
	got, notes := readOnGround(t, color.Lab{L: 60, A: 40, B: 35}, color.Lab{L: 45, A: -8, B: -20})
	assert.Equal(t, tiles.ClassCamera, got.Class)
	assert.Contains(t, notes, "the grey ground was not used: what the tile lies on is not grey")
}

func TestATileThatHidesTheGroundIsNotCorrectedByItself(t *testing.T) {
	got, notes := readOnGround(t, color.Lab{L: 55}, color.Lab{L: 55.2})
	assert.Equal(t, tiles.ClassCamera, got.Class)
	assert.Contains(t, notes, "the grey ground was not used: the tile does not stand out from it")
}
