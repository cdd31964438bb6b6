package measure_test

import (
	"errors"
	"image"
	stdcolor "image/color"
	"image/draw"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/photo"
)

// Pictures that no photo of a tile can be are refused in a sentence: a fit to
// a picture one pixel high is singular.
func TestPicturesTooSmallForATileAreRefused(t *testing.T) {
	for _, size := range []image.Point{{1, 1}, {30000, 1}, {3000, 13}, {5000, 20}, {2, 400}, {1000, 1}, {31, 31}, {1, 30000}, {3200, 33}} {
		img := tilePicture(milk, both, rust).SubImage(image.Rect(0, 0, 800, 1000))
		small := image.NewRGBA(image.Rectangle{Max: size})
		draw.Draw(small, small.Rect, img, image.Point{}, draw.Src)
		for _, data := range [][]byte{pngOf(t, small), jpegOf(t, small)} {
			ask := measure.Ask{Wall: wall(), Photo: "2.png"}
			var r measure.Reader
			_, err := r.Read(data, ask)
			wantRefusal(t, err, size)
			_, _, err = r.Glance(data, ask)
			wantRefusal(t, err, size)
			_, err = measure.Pictures(data, ask)
			wantRefusal(t, err, size)
		}
	}
}

func wantRefusal(t *testing.T, err error, of image.Point) {
	t.Helper()
	var refused photo.Refusal
	require.True(t, errors.As(err, &refused), "%v: %v", of, err)
	assert.Contains(t, refused.What, "too small or too narrow to be a photo of a tile")
}

// Small and narrow pictures of every kind that are let in are read or refused,
// never a panic, and what is read can be written down.
func TestSmallPicturesAreReadOrRefused(t *testing.T) {
	for _, size := range []image.Point{{32, 32}, {32, 256}, {256, 32}, {33, 40}, {64, 48}, {800, 100}} {
		for name, paint := range map[string]func(x, y int) stdcolor.Color{
			"even":    func(x, y int) stdcolor.Color { return both },
			"checked": func(x, y int) stdcolor.Color { return []stdcolor.Color{rust, milk}[(x/2+y/2)%2] },
			"square": func(x, y int) stdcolor.Color {
				if x > size.X/4 && x < size.X*3/4 && y > size.Y/4 && y < size.Y*3/4 {
					return rust
				}
				return cloth
			},
			"black": func(x, y int) stdcolor.Color { return stdcolor.Black },
		} {
			img := image.NewRGBA(image.Rectangle{Max: size})
			for y := range size.Y {
				for x := range size.X {
					img.Set(x, y, paint(x, y))
				}
			}
			var r measure.Reader
			res, err := r.Read(pngOf(t, img), measure.Ask{Wall: wall(), Photo: "2.png", Patches: chart24(t)})
			for _, got := range res.Readings {
				assert.True(t, labOfReading(got).Real(), "%v %s", size, name)
			}
			assert.True(t, err == nil || errors.As(err, new(photo.Refusal)), "%v %s: %v", size, name, err)
		}
	}
}

// A white tile on a dark grey sheet that the wall takes for a lighter one comes
// out lighter than white: that is the photo's problem, and no reading.
func TestAReadingThatNoSurfaceHasIsRefused(t *testing.T) {
	img := tilePicture(milk, milk, milk)
	for y := range 1000 {
		for x := range 800 {
			if img.RGBAAt(x, y) == cloth {
				img.SetRGBA(x, y, stdcolor.RGBA{70, 70, 70, 255})
			}
		}
	}
	ask := measure.Ask{Wall: wall(), Photo: "1.png", Patches: []color.Patch{{Lab: color.Lab{L: 64}, Neutral: true}}}
	ask.Wall.Photo.Reference = "ground"
	var r measure.Reader
	_, err := r.Read(pngOf(t, img), ask)
	var refused photo.Refusal
	require.True(t, errors.As(err, &refused), "%v", err)
	assert.Contains(t, refused.What, "lighter than white")
	assert.Contains(t, refused.What, "grey ground")
	assert.NotEmpty(t, refused.Do)
}

// Corners that lie off the picture are said with their line, whether the photo
// is read or its pictures are made again.
func TestAnOutlineOffThePictureIsSaid(t *testing.T) {
	data := pngOf(t, tilePicture(milk, both, rust))
	for _, q := range [][4][2]float64{
		{{5000, 5000}, {5400, 5000}, {5400, 5600}, {5000, 5600}},
		{{-900, 100}, {-500, 100}, {-500, 600}, {-900, 600}},
		{{200, 200}, {600, 200}, {600, 1400}, {200, 1400}},
		{{1e300, 1e300}, {2e300, 1e300}, {2e300, 2e300}, {1e300, 2e300}},
	} {
		for _, card := range []bool{false, true} {
			ask := measure.Ask{Wall: wall(), Photo: "2.png"}
			ask.Wall.Hand = []tiles.ByHand{{Photo: "2.png", Drawn: true, Card: card, Outline: q, Line: 3}}
			var r measure.Reader
			_, err := r.Read(data, ask)
			require.EqualError(t, err, "tiles/by-hand.csv:3: the outline reaches off the photo 2.png, which is 800 × 1000 pixels; give x and y of the four corners in pixels of the upright photo, counted from its top left")
			_, err = measure.Pictures(data, ask)
			require.ErrorContains(t, err, "tiles/by-hand.csv:3")
			_, _, err = r.Glance(data, ask)
			require.NotPanics(t, func() { _ = err })
		}
	}
	edge := measure.Ask{Wall: wall(), Photo: "2.png"}
	edge.Wall.Hand = []tiles.ByHand{{Photo: "2.png", Drawn: true, Outline: [4][2]float64{{-3, -3}, {803, -3}, {803, 1003}, {-3, 1003}}}}
	var r measure.Reader
	_, err := r.Read(data, edge)
	require.NoError(t, err, "a slip of the hand at the edge")
}

func TestARowByHandThatMatchesNoPhotoIsSaidWithTheNearOne(t *testing.T) {
	decomposed := "8 cafe\u0301.jpg"
	photos := []string{"2.jpg", "8 caf\u00e9.jpg", "kiln/7.heic"}
	hand := []tiles.ByHand{
		{Photo: "2.JPG", Line: 2}, {Photo: decomposed, Line: 3}, {Photo: "7.heic", Line: 4},
		{Photo: "2.png", Line: 5}, {Photo: "99.jpg", Line: 6}, {Photo: "2.jpg", Line: 7},
	}
	require.Equal(t, []string{
		"tiles/by-hand.csv:2: there is no photo 2.JPG in tiles/photos; write 2.jpg if that is the one",
		"tiles/by-hand.csv:4: there is no photo 7.heic in tiles/photos; write kiln/7.heic if that is the one",
		"tiles/by-hand.csv:5: there is no photo 2.png in tiles/photos; write 2.jpg if that is the one",
		"tiles/by-hand.csv:6: there is no photo 99.jpg in tiles/photos; write the photo's name as it is there, or take the row out",
	}, lines(measure.StrayRows(hand, photos)))
}

func lines(ps tiles.Problems) (out []string) {
	for _, p := range ps {
		out = append(out, p.Error())
	}
	return out
}

// A row whose accents are written the other way is the same photo's.
func TestAccentsAreOneHoweverWritten(t *testing.T) {
	ask := measure.Ask{Wall: wall(), Photo: "2 caf\u00e9.png"}
	ask.Wall.Hand = []tiles.ByHand{{Photo: "2 cafe\u0301.png", Drawn: true, Outline: [4][2]float64{{250, 250}, {550, 250}, {550, 750}, {250, 750}}}}
	var r measure.Reader
	res, err := r.Read(pngOf(t, tilePicture(milk, both, rust)), ask)
	require.NoError(t, err)
	assert.Equal(t, measure.FoundByHand, res.Readings[0].Found)
	assert.False(t, math.IsNaN(res.Readings[0].L))
}
