package color

import "github.com/lucasb-eyer/go-colorful"

// SRGBToXYZ takes linear sRGB light, 0–1, to XYZ D50. Primaries and white:
// IEC 61966-2-1:1999, 4.2.
var SRGBToXYZ = RGBToXYZ(
	[3][2]float64{{0.64, 0.33}, {0.30, 0.60}, {0.15, 0.06}},
	[2]float64{0.3127, 0.3290},
)

var xyzToSRGB = SRGBToXYZ.Inverse()

// linear8 is the light, 0–1, of each 8-bit sRGB value.
var linear8 = func() (t [256]float64) {
	for i := range t {
		t[i] = Linear(float64(i) / 255)
	}
	return t
}()

// Linear takes an encoded sRGB value, 0–1, to linear light, 0–1. Source:
// IEC 61966-2-1:1999, 4.2, as go-colorful has it (not its FastLinearRgb, which
// is up to 3.5 ΔE00 off).
func Linear(v float64) float64 {
	light, _, _ := colorful.Color{R: v}.LinearRgb()
	return light
}

// Encoded takes linear light, 0–1, to an encoded sRGB value, 0–1: the inverse
// of Linear.
func Encoded(v float64) float64 {
	return colorful.LinearRgb(v, 0, 0).R
}

// FromSRGB is the color of an 8-bit sRGB value.
func FromSRGB(r, g, b uint8) Lab {
	return FromLinear(linear8[r], linear8[g], linear8[b]).Lab()
}

// FromLinear is the color of linear sRGB light, 0–1.
func FromLinear(r, g, b float64) XYZ {
	x, y, z := SRGBToXYZ.Times(r, g, b)
	return XYZ{x, y, z}
}

// LinearSRGB is the color as linear sRGB light; outside 0–1 where a screen
// cannot show it.
func (c XYZ) LinearSRGB() (r, g, b float64) {
	return xyzToSRGB.Times(c.X, c.Y, c.Z)
}
