package measure_test

import (
	"image"
	stdcolor "image/color"
	"image/draw"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/measure"
)

func TestGlanceReadsWhatStandsOut(t *testing.T) {
	var r measure.Reader
	got, notes, err := r.Glance(pngOf(t, tilePicture(rust, rust, rust)), measure.Ask{Wall: wall(), Photo: "leaf.png"})
	require.NoError(t, err)
	assert.Empty(t, notes)
	assert.Equal(t, measure.FoundOutline, got.Found)
	assert.Equal(t, tiles.ClassCamera, got.Class)
	assert.Less(t, apart(got, labOf(rust)), 0.1)
}

func TestGlanceReadsTheMiddleOfAPlainPicture(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 400, 300))
	draw.Draw(img, img.Rect, image.NewUniform(both), image.Point{}, draw.Src)
	var r measure.Reader
	got, _, err := r.Glance(pngOf(t, img), measure.Ask{Photo: "sky.png"})
	require.NoError(t, err)
	assert.Equal(t, measure.FoundMiddle, got.Found)
	assert.Less(t, apart(got, labOf(both)), 0.1)
}

func TestGlanceIsCorrectedByAChart(t *testing.T) {
	ps := chart24(t)
	leaf := color.Lab{L: 45, A: -20, B: 25}
	var r measure.Reader
	got, _, err := r.Glance(jpegOf(t, chartPhoto(ps, leaf, 0)), askWith(ps, "leaf.jpg"))
	require.NoError(t, err)
	assert.Equal(t, tiles.ClassChart, got.Class)
	assert.Less(t, apart(got, leaf), 2.0)
}

func TestGlanceRefusesWhatIsBlownOut(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 400, 300))
	draw.Draw(img, img.Rect, image.NewUniform(stdcolor.White), image.Point{}, draw.Src)
	var r measure.Reader
	_, _, err := r.Glance(pngOf(t, img), measure.Ask{Photo: "sun.png"})
	assert.ErrorContains(t, err, "the middle is blown out")
}
