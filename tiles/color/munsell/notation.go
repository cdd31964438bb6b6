// Package munsell finds the Munsell notation of a color and the ISCC–NBS name
// block it falls in.
//
// It stands on its own: colors come in as CIE xyY under illuminant C, the
// light Munsell's chips are specified in.
package munsell

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Notation is a color in Munsell's terms: Hue around the circle, 0 to 100
// (5R is 5, 5YR 15, 10RP 0), Value from 0 (black) to 10 (white), Chroma from 0
// (grey) up. The hue of a grey means nothing.
type Notation struct{ Hue, Value, Chroma float64 }

// families are the ten hue families, ten steps of hue each.
var families = [...]string{"R", "YR", "Y", "GY", "G", "BG", "B", "PB", "P", "RP"}

// String writes the notation as Munsell does: "5.0PB 4.0/6.0", "N 5.0/".
func (n Notation) String() string {
	if n.Chroma < 0.05 {
		return fmt.Sprintf("N %.1f/", n.Value)
	}
	step := math.Mod(n.Hue, 10)
	family := int(n.Hue/10) % 10
	if step < 0.05 { // 10RP, not 0R
		step, family = step+10, (family+9)%10
	}
	return fmt.Sprintf("%.1f%s %.1f/%.1f", step, families[family], n.Value, n.Chroma)
}

// ParseHue reads a hue as Munsell writes it, "2.5PB", into 0 to 100.
func ParseHue(s string) (float64, error) {
	digits := strings.TrimRight(s, "RYGBP")
	step, err := strconv.ParseFloat(digits, 64)
	if err != nil || step < 0 || step > 10 {
		return 0, fmt.Errorf("%q is not a Munsell hue such as 5PB", s)
	}
	for i, f := range families {
		if f == s[len(digits):] {
			return math.Mod(10*float64(i)+step, 100), nil
		}
	}
	return 0, fmt.Errorf("%q is not a Munsell hue such as 5PB", s)
}

// Y is the luminous reflectance, 0–1 of the perfect white, of a Munsell value.
// Source: ASTM D1535-08, equation 2.
func Y(value float64) float64 {
	v := value
	return v * (1.1914 + v*(-0.22533+v*(0.23352+v*(-0.020484+v*0.00081939)))) / 100
}

// valueOf is the Munsell value of a luminous reflectance, by Newton's method
// from L*/10, which is never 0.4 off: Y climbs all the way from 0 to 10.
func valueOf(y float64) float64 {
	y = clamp(y, 0, 1)
	v := clamp(11.6*math.Cbrt(y)-1.6, 0, 10)
	for range 5 {
		slope := (1.1914 + v*(-2*0.22533+v*(3*0.23352+v*(-4*0.020484+v*5*0.00081939)))) / 100
		v -= (Y(v) - y) / slope
	}
	return clamp(v, 0, 10)
}
