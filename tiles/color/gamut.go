package color

import (
	"math"

	"github.com/lucasb-eyer/go-colorful"
)

// slack is how far linear light may stray outside 0–1 and still be the same
// 8-bit value: a hundredth of the smallest step.
const slack = 3e-6

// Hex is the color as "#rrggbb" for a screen. Where sRGB cannot show it,
// inGamut is false and the chroma is lowered, at the same L* and hue, until it
// can: a paler neighbor is read more rightly than one of another lightness.
func (c Lab) Hex() (hex string, inGamut bool) {
	r, g, b, inGamut := c.Screen()
	return colorful.Color{R: float64(r) / 255, G: float64(g) / 255, B: float64(b) / 255}.Hex(), inGamut
}

// Screen is the color as 8-bit sRGB, the chroma lowered as Hex says where
// inGamut is false.
func (c Lab) Screen() (r, g, b uint8, inGamut bool) {
	inGamut = c.shows()
	if !inGamut {
		c = c.paler()
	}
	lr, lg, lb := c.XYZ().LinearSRGB()
	return eight(lr), eight(lg), eight(lb), inGamut
}

// shows says whether sRGB holds the color.
func (c Lab) shows() bool {
	r, g, b := c.XYZ().LinearSRGB()
	return within(r) && within(g) && within(b)
}

func within(v float64) bool { return v >= -slack && v <= 1+slack }

// paler lowers the chroma to the most that sRGB shows, by halving: 40 steps
// leave 1e-10 of it.
func (c Lab) paler() Lab {
	c.L = math.Min(math.Max(c.L, 0), 100)
	low, high := 0.0, 1.0
	for range 40 {
		mid := (low + high) / 2
		if (Lab{c.L, c.A * mid, c.B * mid}).shows() {
			low = mid
		} else {
			high = mid
		}
	}
	return Lab{c.L, c.A * low, c.B * low}
}

func eight(v float64) uint8 {
	return uint8(math.Round(255 * Encoded(math.Min(math.Max(v, 0), 1))))
}
