// Package color says what a color is on the wall, how far two colors are
// apart, and what people call one.
//
// One definition holds everywhere: a color is CIELAB under D50, 2° observer,
// of the mean linear-light color of an area. D50, because ICC profiles, CSS
// lab() and print all meet there; 2°, because the published charts do. The
// mean is taken in linear light, because that is what the eye sees from afar
// and what a lens's blur computes anyway: it does not move when a picture is
// made smaller. L*, a* and b* from another white are never mixed in: the same
// pair of colors is up to 1.6 ΔE00 apart in D65 from what it is in D50.
//
// Below it, munsell holds the notation that names are looked up in. On it stand
// correct, which makes a camera's numbers into colors, and mottle, which
// describes an area that is not one color.
package color

import "math"

// Lab is CIELAB relative to D50, 2° observer. L is 0 (black) to 100 (the
// perfect white); A runs from green (−) to red (+), B from blue (−) to yellow
// (+), both about −128 to 128.
type Lab struct{ L, A, B float64 }

// XYZ is a CIE 1931 tristimulus value adapted to D50; Y of the perfect white
// is 1.
type XYZ struct{ X, Y, Z float64 }

// D50 is the white of every Lab and XYZ here: x = 0.3457, y = 0.3585, the
// white of ICC.1 and CSS lab(), carried to more digits than ICC.1 prints
// (0.9642, 1, 0.8249) so that white keeps a* = b* = 0 to 1e-9.
var D50 = XYZ{0.3457 / 0.3585, 1, (1 - 0.3457 - 0.3585) / 0.3585}

// ε and κ of CIELAB as exact fractions: CIE 15:2004, 8.2.1, note on the
// rounded 0.008856 and 903.3.
const (
	epsilon = 216.0 / 24389
	kappa   = 24389.0 / 27
)

// Lab is the color in CIELAB. Source: CIE 15:2004, 8.2.1.1, both branches;
// negative XYZ (a color no surface has) falls on the straight one.
func (c XYZ) Lab() Lab {
	fx, fy, fz := cube(c.X/D50.X), cube(c.Y), cube(c.Z/D50.Z)
	return Lab{116*fy - 16, 500 * (fx - fy), 200 * (fy - fz)}
}

// XYZ is the color as D50 tristimulus values, the inverse of XYZ.Lab.
func (c Lab) XYZ() XYZ {
	fy := (c.L + 16) / 116
	return XYZ{D50.X * uncube(fy+c.A/500), uncube(fy), D50.Z * uncube(fy-c.B/200)}
}

// Chroma is C*ab, the distance from grey.
func (c Lab) Chroma() float64 { return math.Hypot(c.A, c.B) }

// Hue is h_ab in degrees, 0 up to 360; of a grey it means nothing.
func (c Lab) Hue() float64 {
	h := math.Atan2(c.B, c.A) * 180 / math.Pi
	if h < 0 {
		h += 360
	}
	return h
}

// Real says that the three numbers are numbers and can be of a fired surface
// or a screen: L* 0–100, a* and b* within ±200.
func (c Lab) Real() bool {
	return c.L >= 0 && c.L <= 100 && math.Abs(c.A) <= 200 && math.Abs(c.B) <= 200
}

func cube(t float64) float64 {
	if t > epsilon {
		return math.Cbrt(t)
	}
	return (kappa*t + 16) / 116
}

func uncube(f float64) float64 {
	if f > 6.0/29 {
		return f * f * f
	}
	return (116*f - 16) / kappa
}
