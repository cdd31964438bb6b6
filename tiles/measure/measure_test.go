package measure_test

import (
	"bytes"
	"image"
	stdcolor "image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/measure"
)

var (
	cloth = stdcolor.RGBA{200, 196, 188, 255}
	milk  = stdcolor.RGBA{222, 214, 180, 255}
	rust  = stdcolor.RGBA{140, 70, 40, 255}
	both  = stdcolor.RGBA{96, 90, 120, 255}
)

// tilePicture is a tile 400 × 600 px on a cloth of 800 × 1000: first at the
// bottom, overlap in the middle, second at the top, a third each.
func tilePicture(first, overlap, second stdcolor.RGBA) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, 800, 1000))
	fill := func(r image.Rectangle, c stdcolor.RGBA) {
		draw.Draw(img, r, image.NewUniform(c), image.Point{}, draw.Src)
	}
	fill(img.Rect, cloth)
	fill(image.Rect(200, 200, 600, 400), second)
	fill(image.Rect(200, 400, 600, 600), overlap)
	fill(image.Rect(200, 600, 600, 800), first)
	return img
}

func pngOf(t *testing.T, img image.Image) []byte {
	var buf bytes.Buffer
	require.NoError(t, png.Encode(&buf, img))
	return buf.Bytes()
}

func jpegOf(t *testing.T, img image.Image) []byte {
	var buf bytes.Buffer
	require.NoError(t, jpeg.Encode(&buf, img, &jpeg.Options{Quality: 92}))
	return buf.Bytes()
}

func wall() tiles.Wall {
	var w tiles.Wall
	w.Settings.Tile = tiles.Shape{Width: 54, Height: 81, Layout: tiles.LayoutEnds, FirstDip: 54, SecondDip: 54}
	w.Tiles = []tiles.Tile{
		{Number: 1, Pair: tiles.Pair{First: "A"}},
		{Number: 2, Pair: tiles.Pair{First: "A", Second: "B"}},
		{Number: 3, Pair: tiles.Pair{First: "A", Second: "A"}},
	}
	return w
}

func read(t *testing.T, data []byte, name string) measure.Result {
	t.Helper()
	var r measure.Reader
	res, err := r.Read(data, measure.Ask{Wall: wall(), Photo: name})
	require.NoError(t, err)
	return res
}

func labOf(c stdcolor.RGBA) color.Lab { return color.FromSRGB(c.R, c.G, c.B) }

func byZone(rs []tiles.Reading) map[tiles.Zone]tiles.Reading {
	out := map[tiles.Zone]tiles.Reading{}
	for _, r := range rs {
		out[r.Zone] = r
	}
	return out
}

func apart(r tiles.Reading, c color.Lab) float64 {
	return color.DE00(color.Lab{L: r.L, A: r.A, B: r.B}, c)
}

func TestZonesOfATileDippedFromBothEnds(t *testing.T) {
	res := read(t, pngOf(t, tilePicture(milk, both, rust)), "2.png")
	got := byZone(res.Readings)
	require.Len(t, got, 3)
	assert.Less(t, apart(got[tiles.ZoneFirst], labOf(milk)), 0.01)
	assert.Less(t, apart(got[tiles.ZoneOverlap], labOf(both)), 0.01)
	assert.Less(t, apart(got[tiles.ZoneSecond], labOf(rust)), 0.01)
	for zone, r := range got {
		assert.Equal(t, "outline", r.Found, zone)
		assert.Equal(t, "sRGB assumed", r.Profile, zone)
		assert.Equal(t, tiles.ClassCamera, r.Class, zone)
		assert.Equal(t, 1.0, r.Kept, zone)
		assert.Less(t, r.Spread, 0.01, zone)
		assert.Empty(t, r.Warning, zone)
	}
}

func TestASingleIsReadWhole(t *testing.T) {
	res := read(t, jpegOf(t, tilePicture(rust, rust, rust)), "1 front.jpg")
	require.Len(t, res.Readings, 1)
	r := res.Readings[0]
	assert.Equal(t, tiles.ZoneWhole, r.Zone)
	assert.Less(t, apart(r, labOf(rust)), 0.5)
}

// The mean is of light, not of Lab: half black and half white is L* 76, not 50
// (CIELAB of Y = 0.5, ISO/CIE 11664-4).
func TestTheMeanIsOfLight(t *testing.T) {
	img := tilePicture(rust, rust, rust)
	for y := 200; y < 800; y++ {
		for x := 200; x < 600; x++ {
			v := uint8(0)
			if (x/40+y/40)%2 == 0 {
				v = 249
			}
			img.SetRGBA(x, y, stdcolor.RGBA{v, v, v, 255})
		}
	}
	r := read(t, pngOf(t, img), "1.png").Readings[0]
	want := color.XYZ{X: color.D50.X, Y: 1, Z: color.D50.Z}
	half := color.Linear(249.0/255) / 2
	lab := color.XYZ{X: want.X * half, Y: half, Z: want.Z * half}.Lab()
	assert.InDelta(t, lab.L, r.L, 1.0)
	require.Len(t, r.Parts, 2, "two colors, told apart")
}

func TestGlareIsLeftOut(t *testing.T) {
	img := tilePicture(rust, rust, rust)
	draw.Draw(img, image.Rect(300, 300, 360, 360), image.NewUniform(stdcolor.White), image.Point{}, draw.Src)
	draw.Draw(img, image.Rect(420, 500, 480, 560), image.NewUniform(stdcolor.RGBA{225, 225, 225, 255}), image.Point{}, draw.Src)
	r := read(t, pngOf(t, img), "1.png").Readings[0]
	assert.Less(t, apart(r, labOf(rust)), 0.3)
	assert.Less(t, r.Kept, 0.98)
	assert.Greater(t, r.Kept, 0.9)
}

func TestABlownTileIsRefused(t *testing.T) {
	var r measure.Reader
	_, err := r.Read(pngOf(t, tilePicture(stdcolor.RGBA{255, 255, 255, 255}, stdcolor.RGBA{255, 255, 255, 255}, stdcolor.RGBA{255, 255, 255, 255})), measure.Ask{Wall: wall(), Photo: "1.png"})
	assert.ErrorContains(t, err, "blown out")
}

func TestATiltedTileIsFound(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 800, 1000))
	draw.Draw(img, img.Rect, image.NewUniform(cloth), image.Point{}, draw.Src)
	for y := range 1000 {
		for x := range 800 {
			// A tile turned by 10° about the middle of the picture.
			dx, dy := float64(x)-400, float64(y)-500
			u, v := 0.98481*dx+0.17365*dy, 0.98481*dy-0.17365*dx
			if u > -200 && u < 200 && v > -300 && v < 300 {
				c := both
				if v > 100 {
					c = milk
				} else if v < -100 {
					c = rust
				}
				img.SetRGBA(x, y, c)
			}
		}
	}
	got := byZone(read(t, pngOf(t, img), "2.png").Readings)
	assert.Less(t, apart(got[tiles.ZoneFirst], labOf(milk)), 0.01)
	assert.Less(t, apart(got[tiles.ZoneOverlap], labOf(both)), 0.01)
	assert.Less(t, apart(got[tiles.ZoneSecond], labOf(rust)), 0.01)
}

func TestATileThatFillsThePictureIsReadInItsMiddle(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 400, 600))
	draw.Draw(img, img.Rect, image.NewUniform(both), image.Point{}, draw.Src)
	rs := read(t, pngOf(t, img), "2.png").Readings
	require.Len(t, rs, 1)
	assert.Equal(t, "middle", rs[0].Found)
	assert.Equal(t, tiles.ZoneOverlap, rs[0].Zone)
	assert.Less(t, apart(rs[0], labOf(both)), 0.01)
}

func TestPicturesHoldNothingButThePicture(t *testing.T) {
	res := read(t, jpegOf(t, tilePicture(milk, both, rust)), "2.jpg")
	require.Len(t, res.Pictures, 2)
	for _, p := range res.Pictures {
		cfg, err := jpeg.DecodeConfig(bytes.NewReader(p.JPEG))
		require.NoError(t, err)
		assert.LessOrEqual(t, max(cfg.Width, cfg.Height), p.Width)
		assert.NotContains(t, string(p.JPEG), "Exif")
	}
}

func TestAPhotoOfNoTileIsRefused(t *testing.T) {
	data := pngOf(t, tilePicture(milk, both, rust))
	var r measure.Reader
	_, err := r.Read(data, measure.Ask{Wall: wall(), Photo: "IMG_0007.png"})
	assert.ErrorContains(t, err, "does not begin with a tile's number")
	_, err = r.Read(data, measure.Ask{Wall: wall(), Photo: "77.png"})
	assert.ErrorContains(t, err, "the plan has no tile 77")
}

func TestTheHashFollowsWhatDecides(t *testing.T) {
	ask := measure.Ask{Wall: wall(), Photo: "2.png"}
	first := ask.Hash("x", nil)
	assert.Equal(t, first, ask.Hash("x", nil))
	assert.NotEqual(t, first, ask.Hash("y", nil))
	ask.Wall.Settings.Tile.FirstDip = 60
	assert.NotEqual(t, first, ask.Hash("x", nil))
}

func TestTheSamePhotoGivesTheSameReading(t *testing.T) {
	data := jpegOf(t, tilePicture(milk, both, rust))
	assert.Equal(t, read(t, data, "2.jpg"), read(t, data, "2.jpg"))
}
