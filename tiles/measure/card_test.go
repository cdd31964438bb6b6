package measure_test

import (
	"encoding/csv"
	"image"
	stdcolor "image/color"
	"image/draw"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/measure"
)

// shared is a path under the folder of pictures and tables beside the checkout.
func shared(t testing.TB, path string) string {
	t.Helper()
	dir, err := os.Getwd()
	require.NoError(t, err)
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		}
		dir = filepath.Dir(dir)
	}
	full := filepath.Join(dir, "..", "shared", path)
	if _, err := os.Stat(full); err != nil {
		t.Skipf("../shared/%s is not on this machine", path)
	}
	return full
}

// chart24 is the published values of the 24-patch chart, D50 (see SOURCE.txt
// beside the table).
func chart24(t testing.TB) []color.Patch {
	t.Helper()
	f, err := os.Open(shared(t, "reference/colorchecker/colorchecker_xyY_Lab.csv"))
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var out []color.Patch
	for _, r := range rows {
		if r[0] != "ColorChecker24 - After November 2014" {
			continue
		}
		var v [3]float64
		for i := range v {
			v[i], err = strconv.ParseFloat(r[6+i], 64)
			require.NoError(t, err)
		}
		c := color.Lab{L: v[0], A: v[1], B: v[2]}
		out = append(out, color.Patch{Name: r[2], Lab: c, Neutral: c.SeemsNeutral()})
	}
	require.Len(t, out, 24)
	return out
}

// camera sees a color in warm light, a little dark, through a tone curve.
func camera(c color.Lab) stdcolor.RGBA {
	x := c.XYZ()
	r, g, b := x.LinearSRGB()
	see := func(v, light float64) uint8 {
		v = math.Pow(max(0, v*light), 0.9) * 0.8
		return uint8(math.Round(255 * color.Encoded(min(1, v))))
	}
	return stdcolor.RGBA{see(r, 1.1), see(g, 0.95), see(b, 0.75), 255}
}

var grey = color.Lab{L: 55}

// chartPhoto is a tile of one color and a chart beside it, turned by quarters,
// as the camera sees both.
func chartPhoto(ps []color.Patch, tile color.Lab, quarters int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, 1200, 900))
	fill := func(r image.Rectangle, c color.Lab) {
		draw.Draw(img, r, image.NewUniform(camera(c)), image.Point{}, draw.Src)
	}
	fill(img.Rect, color.Lab{L: 70})
	fill(image.Rect(120, 150, 520, 750), tile)
	const step = 70
	fill(image.Rect(650, 200, 650+6*step+20, 200+6*step+20), color.Lab{L: 18})
	for i, p := range ps {
		column, row := i%6, i/6
		for range quarters {
			column, row = 5-row, column
		}
		fill(image.Rect(665+column*step, 215+row*step, 665+column*step+56, 215+row*step+56), p.Lab)
	}
	return img
}

func askWith(ps []color.Patch, photo string) measure.Ask {
	return measure.Ask{Wall: wall(), Photo: photo, Patches: ps}
}

func TestAChartInThePhotoCorrectsIt(t *testing.T) {
	ps := chart24(t)
	tile := color.Lab{L: 45, A: 18, B: -20}
	for quarters := range 4 {
		var r measure.Reader
		res, err := r.Read(pngOf(t, chartPhoto(ps, tile, quarters)), askWith(ps, "1.png"))
		require.NoError(t, err)
		got := res.Readings[0]
		assert.Equal(t, tiles.ClassChart, got.Class, "turned by %d quarters: %v", quarters, res.Notes)
		assert.Contains(t, got.Correction, "patches")
		assert.Less(t, apart(got, tile), 1.0, "turned by %d quarters", quarters)
		assert.Greater(t, got.Doubt, apart(got, tile))
		assert.Equal(t, measure.FoundOutline, got.Found, "the tile and not the chart was read")
	}
}

// Without the chart's values the same photo is far off: the correction above
// does something.
func TestTheSamePhotoUncorrectedIsFarOff(t *testing.T) {
	tile := color.Lab{L: 45, A: 18, B: -20}
	var r measure.Reader
	res, err := r.Read(pngOf(t, chartPhoto(chart24(t), tile, 0)), askWith(nil, "1.png"))
	require.NoError(t, err)
	assert.Equal(t, tiles.ClassCamera, res.Readings[0].Class)
	assert.Greater(t, apart(res.Readings[0], tile), 6.0)
}

// Another chart's values, a chart half hidden, one cut off: no correction
// rather than a wrong one, and it is said.
func TestAChartThatDoesNotFitIsNotBelieved(t *testing.T) {
	ps := chart24(t)
	tile := color.Lab{L: 45, A: 18, B: -20}
	other := append([]color.Patch(nil), ps...)
	for i := range other {
		other[i].Lab = ps[(i*7+3)%24].Lab
		other[i].Neutral = ps[(i*7+3)%24].Neutral
	}
	hidden := chartPhoto(ps, tile, 0)
	draw.Draw(hidden, image.Rect(640, 190, 870, 660), image.NewUniform(stdcolor.RGBA{60, 90, 40, 255}), image.Point{}, draw.Src)
	cut := chartPhoto(ps, tile, 0).SubImage(image.Rect(0, 0, 880, 900))
	for name, photo := range map[string]image.Image{"other": chartPhoto(other, tile, 0), "hidden": hidden, "cut": cut} {
		ask := askWith(ps, "1.png")
		ask.Wall.Photo.Reference = "chart"
		var r measure.Reader
		res, err := r.Read(pngOf(t, photo), ask)
		require.NoError(t, err, name)
		assert.Equal(t, tiles.ClassCamera, res.Readings[0].Class, name)
		require.NotEmpty(t, res.Notes, name)
		assert.Contains(t, res.Notes[0], "the reference was not used", name)
	}
}

func TestAGreyCardDrawnByHand(t *testing.T) {
	tile := color.Lab{L: 45, A: 8, B: -10}
	img := chartPhoto(nil, tile, 0)
	draw.Draw(img, image.Rect(650, 200, 1090, 640), image.NewUniform(camera(color.Lab{L: 49.5})), image.Point{}, draw.Src)
	ask := askWith(nil, "1.png")
	ask.Wall.Hand = []tiles.ByHand{{Photo: "1.png", Card: true, Drawn: true, Outline: [4][2]float64{{660, 210}, {1080, 210}, {1080, 630}, {660, 630}}}}
	var r measure.Reader
	res, err := r.Read(pngOf(t, img), ask)
	require.NoError(t, err)
	got := res.Readings[0]
	assert.Equal(t, tiles.ClassGrey, got.Class, res.Notes)
	assert.Equal(t, "grey card", got.Correction)
	assert.Less(t, apart(got, tile), 3.3, "a grey card's median in the accuracy report")
}

func TestAReferenceOfNoneIsRespected(t *testing.T) {
	ask := askWith(chart24(t), "1.png")
	ask.Wall.Photo.Reference = "none"
	var r measure.Reader
	res, err := r.Read(pngOf(t, chartPhoto(ask.Patches, grey, 0)), ask)
	require.NoError(t, err)
	assert.Equal(t, "none", res.Readings[0].Correction)
}

// Photographs of 24-patch cards (SOURCE.txt beside them): whole ones are found
// whichever way they lie; one with dots drawn over its patches is not believed.
func TestRealChartsAreFoundOrNotBelieved(t *testing.T) {
	ps := chart24(t)
	for file, found := range map[string]bool{
		"plantcv/classic.png": true, "plantcv/calibrite-passport.png": true,
		"plantcv/source1_img.png": true, "plantcv/target_img.png": true,
		"plantcv/colorchecker-classic-mini.jpg": true, "misc/passport-outdoor-shade.jpg": true,
		"plantcv/tilted_color_card.jpg": false, "sfu-iitp/mondrian_8_bit_munsell1.tif": false,
		"sfu-iitp/mondrian_8_bit_munsell2.tif": false, "sfu-iitp/mondrian_8_bit_munsell3.tif": false,
	} {
		data, err := os.ReadFile(shared(t, "photos/chart/"+file))
		require.NoError(t, err)
		ask := askWith(ps, "1.png")
		ask.Wall.Photo.Reference = "chart"
		var r measure.Reader
		res, err := r.Read(data, ask)
		require.NoError(t, err, file)
		assert.Equal(t, found, res.Readings[0].Class == tiles.ClassChart, "%s: %s %v", file, res.Readings[0].Class, res.Notes)
	}
}

// The same in numbers: one scene under two exposures and white balances comes
// out alike once both are corrected (SOURCE.txt: within a few ΔE00 a patch).
func TestTwoExposuresOfOneSceneComeOutAlike(t *testing.T) {
	ps := chart24(t)
	read := func(file string, patches []color.Patch) tiles.Reading {
		data, err := os.ReadFile(shared(t, "photos/chart/plantcv/"+file))
		require.NoError(t, err)
		ask := askWith(patches, "1.png")
		// The card's own magenta patch stands for a tile.
		ask.Wall.Hand = []tiles.ByHand{{Photo: "1.png", Tile: 1, Drawn: true, Outline: magentaPatch}}
		var r measure.Reader
		res, err := r.Read(data, ask)
		require.NoError(t, err)
		return res.Readings[0]
	}
	plain := color.DE00(labOfReading(read("source1_img.png", nil)), labOfReading(read("target_img.png", nil)))
	corrected := color.DE00(labOfReading(read("source1_img.png", ps)), labOfReading(read("target_img.png", ps)))
	t.Logf("apart: %.1f as shot, %.1f corrected", plain, corrected)
	assert.Less(t, corrected, 3.0)
	assert.Less(t, corrected, plain)
}

// magentaPatch is where both photos show the card's magenta patch.
var magentaPatch = [4][2]float64{{183, 247}, {198, 247}, {198, 259}, {183, 259}}

func labOfReading(r tiles.Reading) color.Lab { return color.Lab{L: r.L, A: r.A, B: r.B} }
