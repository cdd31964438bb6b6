package spectral

import (
	"math"
	"math/rand/v2"
)

// Paper draws an office paper: it reflects 80 to 88 %, less toward the
// ultraviolet, and most glow blue by their brighteners, up to a quarter at
// 440 nm: L* 90 to 95, b* from +2 to −8 (from memory; no source).
func Paper(random *rand.Rand) *Spectrum {
	var s Spectrum
	white, glow := 0.80+0.08*random.Float64(), 0.25*random.Float64()
	for i := range s {
		nm := 380 + 5*float64(i)
		s[i] = white*(1-0.5*math.Exp((380-nm)/25)) + glow*math.Exp(-(nm-440)*(nm-440)/(2*18*18))
	}
	return &s
}

// Ink draws a black ink or toner: 3 to 5 % at every wavelength, L* 20 to 27
// (from memory; no source).
func Ink(random *rand.Rand) *Spectrum {
	var s Spectrum
	dark := 0.03 + 0.02*random.Float64()
	for i := range s {
		s[i] = dark
	}
	return &s
}
