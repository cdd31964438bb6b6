package spectral

import (
	"math"
	"math/rand/v2"

	"github.com/twodip/twodip/tiles/color"
)

// Shot is one photo: one camera, one light, and everything that goes a little
// wrong in a careful photo.
type Shot struct {
	camera   *Camera
	light    *Spectrum
	balance  RGB     // what the camera took for white
	exposure float64 // of a white surface, linear
	contrast float64 // of the tone curve
	flare    float64 // stray light, share of white
	uneven   float64 // standard deviation of the light from place to place
	dimmed   float64 // of the light, what falls less here; 0 = all of it falls
	Random   *rand.Rand
}

// Careful draws a careful photo: white balance off by 4 % a channel, exposure
// within a third of a stop, a contrast curve like a phone's, 0.3 % flare, the
// light even to 1 %.
func (b *Bench) Careful(c *Camera, light *Spectrum, random *rand.Rand) *Shot {
	s := &Shot{camera: c, light: light, Random: random, flare: 0.003, uneven: 0.01}
	s.balance = c.Raw(light, White)
	for k := range s.balance {
		s.balance[k] *= math.Exp(0.04 * random.NormFloat64())
	}
	s.exposure = 0.78 * math.Exp(0.12*random.NormFloat64())
	s.contrast = 0.1 + 0.4*random.Float64()
	return s
}

// Under is the same photo where other light falls: the camera's white balance
// stays.
func (s *Shot) Under(light *Spectrum) *Shot {
	other := *s
	other.light = light
	return &other
}

// Dimmed is the same photo where a share of the light falls and no other
// unevenness is drawn.
func (s *Shot) Dimmed(share float64) *Shot {
	other := *s
	other.dimmed, other.uneven = 1-share, 0
	return &other
}

// Developed is a surface's light in linear sRGB, white being about 1, after the
// camera's matrix and before exposure and tone: nothing is clipped.
func (s *Shot) Developed(surface *Spectrum) RGB {
	v := s.camera.Raw(s.light, surface)
	m := s.camera.matrix(s.balance)
	r, g, b := m.Times(v[0]/s.balance[0], v[1]/s.balance[1], v[2]/s.balance[2])
	return RGB{r, g, b}
}

// Take is the linear light the photo's file gives for a surface: what comes
// out of an 8-bit sRGB file, averaged over an area, read back as sRGB.
func (s *Shot) Take(surface *Spectrum) (out RGB) {
	v := s.camera.Raw(s.light, surface)
	gain := (1 + s.uneven*s.Random.NormFloat64()) * (1 - s.dimmed)
	for k := range v {
		v[k] = s.exposure * (gain*v[k]/s.balance[k] + s.flare)
	}
	m := s.camera.matrix(s.balance)
	r, g, b := m.Times(v[0], v[1], v[2])
	for k, light := range [...]float64{r, g, b} {
		out[k] = color.Linear(s.tone(color.Encoded(math.Min(math.Max(light, 0), 1))))
	}
	return out
}

// tone is the camera's contrast: an S about the middle of the encoded range.
func (s *Shot) tone(v float64) float64 {
	return (1-s.contrast)*v + s.contrast*v*v*(3-2*v)
}
