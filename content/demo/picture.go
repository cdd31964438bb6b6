package demo

import (
	"image"
	"image/jpeg"
	"io"
	"math"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// Width and Height of a made photo, px. The tile's height fills three quarters
// of the frame.
const (
	Width, Height = 960, 1280
	fill          = 0.76
)

// exposure is a little under, so that few lit white ridges are blown out.
const exposure = 0.92

// Truth is the color of each zone as it was made: CIELAB D50/2° of the mean
// linear light before lamp, camera and JPEG, 2 mm and more inside the zone.
type Truth map[tiles.Zone]color.Lab

// Studio makes photos of tiles of one shape. The same seed gives the same
// bytes. It may be used from several goroutines.
type Studio struct {
	shape  tiles.Shape
	fields *fields
}

// NewStudio makes the noise that all tiles share, which takes about half a second.
func NewStudio(shape tiles.Shape, seed uint64) *Studio {
	return &Studio{shape: shape, fields: newFields(seed)}
}

// JPEG writes the photo of a tile, without metadata, and says what colors it
// was made with.
func (s *Studio) JPEG(w io.Writer, t tiles.Tile) (Truth, error) {
	img, truth := s.Picture(t)
	return truth, jpeg.Encode(w, img, &jpeg.Options{Quality: 88})
}

// Picture is JPEG before encoding.
func (s *Studio) Picture(t tiles.Tile) (*image.RGBA, Truth) {
	c := s.newCamera(t)
	p := s.newPainter(t)
	img := image.NewRGBA(image.Rect(0, 0, Width, Height))
	var sums sums
	above, here := make([]float32, Width), make([]float32, Width)
	for y := range Height {
		left := float32(0)
		for x := range Width {
			u, v := c.place(x, y)
			out, height := p.at(u, v, &sums)
			here[x] = height
			slope := (height - left) + (height - above[x])
			left = height
			if x == 0 || y == 0 {
				slope = 0
			}
			c.expose(img.Pix[img.PixOffset(x, y):], x, y, out, slope)
		}
		above, here = here, above
	}
	return img, truthOf(sums)
}

// sums gathers the light of each zone: red, green, blue and how many places.
type sums [len(zones)][4]float64

func (s *sums) add(zone int, c rgb) {
	z := &s[zone]
	z[0], z[1], z[2], z[3] = z[0]+float64(c.r), z[1]+float64(c.g), z[2]+float64(c.b), z[3]+1
}

func truthOf(s sums) Truth {
	truth := Truth{}
	for i, z := range s {
		if n := z[3]; n > 0 {
			truth[zones[i]] = labOf(z[0]/n, z[1]/n, z[2]/n)
		}
	}
	return truth
}

// surface is what the camera sees at one place.
type surface struct {
	color rgb
	gloss float32
}

// camera is where the picture is taken from and in what light: near enough to
// straight, evenly lit, exposed within a few per cent, as a careful person does.
type camera struct {
	scale, sin, cos  float64 // px a mm, and the turn
	left, top        float64 // px of the tile's middle
	middleU, middleV float64
	gain             float32
	grain            *field
	dx, dy           int
}

func (s *Studio) newCamera(t tiles.Tile) *camera {
	r := chance("camera", t.Number.String(), t.First, t.Second)
	turn := r.NormFloat64() * 0.006
	return &camera{
		scale: fill * Height / s.shape.Height, sin: math.Sin(turn), cos: math.Cos(turn),
		left: Width/2 + r.NormFloat64()*6, top: Height/2 + r.NormFloat64()*6,
		middleU: s.shape.Width / 2, middleV: s.shape.Height / 2,
		gain:  exposure + clamp(float32(r.NormFloat64()*0.012), -0.03, 0.03),
		grain: &s.fields.grain, dx: r.IntN(fieldSize), dy: r.IntN(fieldSize),
	}
}

// place is the place on the tile, mm, that a pixel sees.
func (c *camera) place(x, y int) (u, v float32) {
	px, py := (float64(x)-c.left)/c.scale, (float64(y)-c.top)/c.scale
	return float32(px*c.cos + py*c.sin + c.middleU), float32(py*c.cos - px*c.sin + c.middleV)
}

// expose lights a place from the upper left and writes the pixel.
func (c *camera) expose(pix []uint8, x, y int, s surface, slope float32) {
	light := 1 + clamp(0.75*slope, -0.40, 0.40)
	glint := s.gloss * 0.38 * smooth(slope, 0.14, 0.75)
	fx, fy := float32(x)/Width-0.42, float32(y)/Height-0.40
	fall := c.gain * (1 - 0.06*(fx*fx+fy*fy)*2)
	noise := (c.grain.get(x+c.dx, y+c.dy) - 0.5) * 0.010
	k := fall * light
	pix[0] = encode(s.color.r*k + glint + noise*s.color.r)
	pix[1] = encode(s.color.g*k + glint + noise*s.color.g)
	pix[2] = encode(s.color.b*k + glint + noise*s.color.b)
	pix[3] = 255
}
