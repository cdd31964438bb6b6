package simulate

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"runtime"
	"sync"
)

// Light is everything between the scene and the file that is not geometry.
type Light struct {
	Across  float64    // light at one side over light at the other, 1 and up
	Way     float64    // direction of that slope, degrees
	Sun     [2]float64 // shadow on the ground, mm a mm of height
	Cast    RGB        // of light and white balance; zero = none
	Level   float32    // what white paper comes to, linear; 0 = 0.75
	Blur    float64    // σ, pixels
	Motion  int        // length of a smear along the rows, pixels
	Noise   float64    // σ at full light, of 1
	Glare   []Glare    // washed-out spots
	Quality int        // of the JPEG; 0 = 90
	Flare   float32    // share of the mean light laid over all
	Curve   float64    // strength of the tone curve over sRGB's own, 0–1
	Shadows []Shadow   // across the scene
}

// Shadow is something's shadow that falls over the scene with a straight edge:
// through a place (shares of the scene's width and height), toward Way degrees,
// with a penumbra Soft of the width wide; Depth is the share of light it takes.
type Shadow struct{ X, Y, Way, Soft, Depth float64 }

// Lets is the share of light that falls at a place of a scene, mm.
func (s Shadow) Lets(x, y, width, height float64) float32 {
	sin, cos := math.Sincos(s.Way * math.Pi / 180)
	d := ((x-s.X*width)*cos + (y-s.Y*height)*sin) / width
	return float32(1 - s.Depth*0.5*(1+math.Erf(d/max(s.Soft, 1e-3))))
}

// Glare is a soft spot of light laid over the picture: its place and radius
// are shares of the picture's width, its strength is linear light.
type Glare struct{ X, Y, Radius, Strength float64 }

// Photo renders the scene; gray makes one channel only, which is all that
// finding marks needs, in a third of the time.
func Photo(s *Scene, c Camera, l Light, r *rand.Rand, gray bool) image.Image {
	s.prepare()
	channels := 3
	if gray {
		channels = 1
	}
	planes := shoot(s, c, l, channels)
	for i := range planes {
		develop(planes[i], c, l, r)
	}
	return picture(planes, c.W, c.H)
}

// JPEG encodes the photo as a phone would.
func JPEG(img image.Image, quality int) []byte {
	if quality == 0 {
		quality = 90
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: quality}); err != nil {
		panic(err) // a buffer does not fail
	}
	return b.Bytes()
}

// shoot follows a ray through every pixel, several where the ground is fine;
// the rows are shared out among the processors.
func shoot(s *Scene, c Camera, l Light, channels int) [][]float32 {
	planes := make([][]float32, channels)
	for i := range planes {
		planes[i] = make([]float32, c.W*c.H)
	}
	slope := newSlope(s, l)
	var all sync.WaitGroup
	n := runtime.GOMAXPROCS(0)
	for k := range n {
		all.Go(func() {
			for y := k; y < c.H; y += n {
				s.row(&c, &slope, y, planes)
			}
		})
	}
	all.Wait()
	return planes
}

func (s *Scene) row(c *Camera, l *slope, y int, planes [][]float32) {
	for x := range c.W {
		v, fine := s.trace(c, l, float64(x)+0.5, float64(y)+0.5)
		if fine {
			v = s.many(c, l, float64(x), float64(y))
		}
		if len(planes) == 1 {
			planes[0][y*c.W+x] = 0.2126*v[0] + 0.7152*v[1] + 0.0722*v[2]
			continue
		}
		for i := range planes {
			planes[i][y*c.W+x] = v[i]
		}
	}
}

func (s *Scene) many(c *Camera, l *slope, x, y float64) RGB {
	const n = 4
	var sum RGB
	for j := range n {
		for i := range n {
			v, _ := s.trace(c, l, x+(float64(i)+0.5)/n, y+(float64(j)+0.5)/n)
			for k := range sum {
				sum[k] += v[k] / (n * n)
			}
		}
	}
	return sum
}

// trace is the light that comes back along the ray of a place in the picture,
// and whether it came from fine ground.
func (s *Scene) trace(c *Camera, l *slope, px, py float64) (RGB, bool) {
	v := c.ray(px, py)
	if v[2] <= 1e-9 {
		return s.Beyond, false
	}
	hit := func(height float64) (float64, float64) {
		t := (-height - c.at[2]) / v[2]
		return c.at[0] + t*v[0], c.at[1] + t*v[1]
	}
	lift := 0.0
	x, y := hit(0)
	if s.Bow != nil {
		for range 3 {
			lift = s.Bow(x, y)
			x, y = hit(lift)
		}
	}
	for _, i := range s.index.near(x, y) {
		b := &s.Blocks[i]
		fx, fy := hit(lift + b.Thick)
		u, w := b.local(fx, fy)
		if b.holds(u, w) {
			return l.on(b.Face(u, w), fx, fy, 1), b.Fine
		}
		gu, gw := b.local(x, y)
		if b.crosses(u, w, gu, gw) {
			return l.on(b.Face(min(max(gu, 0), b.W), min(max(gw, 0), b.H)), x, y, 0.45), false
		}
	}
	if x < 0 || y < 0 || x > s.Width || y > s.Height {
		return l.on(s.Beyond, x, y, 1), false
	}
	return l.on(s.Ground(x, y), x, y, s.shade(x, y, l.sun[0], l.sun[1])), s.Fine != nil && s.Fine(x, y)
}

// slope is the light across the scene.
type slope struct {
	x, y, c float64
	cast    RGB
	sun     [2]float64
	shadows []Shadow
	w, h    float64
}

func newSlope(s *Scene, l Light) slope {
	across := max(l.Across, 1)
	sin, cos := math.Sincos(l.Way * math.Pi / 180)
	// Light runs from 1 down to 1/across over the scene's diagonal.
	k := (1 - 1/across) / math.Hypot(s.Width, s.Height)
	out := slope{x: k * cos, y: k * sin, c: (1 + 1/across) / 2, cast: l.Cast, sun: l.Sun, shadows: l.Shadows, w: s.Width, h: s.Height}
	out.c -= out.x*s.Width/2 + out.y*s.Height/2
	level := l.Level
	if level == 0 {
		level = 0.75
	}
	if out.cast == (RGB{}) {
		out.cast = RGB{1, 1, 1}
	}
	for i := range out.cast {
		out.cast[i] *= level / 0.85
	}
	return out
}

func (l *slope) on(v RGB, x, y float64, part float32) RGB {
	k := float32(min(max(l.c+l.x*x+l.y*y, 0.15), 1.3)) * part
	for _, s := range l.shadows {
		k *= s.Lets(x, y, l.w, l.h)
	}
	for i := range v {
		v[i] *= k * l.cast[i]
	}
	return v
}
