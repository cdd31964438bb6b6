package foresee

import "github.com/twodip/twodip/tiles/color"

// light is what a surface sends back in three broad bands, 0–1 each.
type light [3]float64

// wide takes linear light of the ROMM primaries to XYZ D50. Their gamut holds
// every color a fired surface is likely to have, and their white is D50.
// Source of the primaries: ISO 22028-2, ROMM RGB.
var wide = color.RGBToXYZ(
	[3][2]float64{{0.7347, 0.2653}, {0.1596, 0.8404}, {0.0366, 0.0001}},
	[2]float64{0.3457, 0.3585},
)

var toWide = wide.Inverse()

// A fired surface sends back neither nothing nor all of the light.
const darkest, lightest = 0.003, 0.98

// lightOf is a color as light in three bands.
func lightOf(c color.Lab) light {
	x := c.XYZ()
	r, g, b := toWide.Times(x.X, x.Y, x.Z)
	return light{within(r), within(g), within(b)}
}

func lightsOf(cs []color.Lab) []light {
	out := make([]light, len(cs))
	for i, c := range cs {
		out[i] = lightOf(c)
	}
	return out
}

func within(v float64) float64 { return min(max(v, darkest), lightest) }

// lab is the color of the light.
func (v light) lab() color.Lab {
	x, y, z := wide.Times(v[0], v[1], v[2])
	return color.XYZ{X: x, Y: y, Z: z}.Lab()
}

// over is the reflectance of a coat laid on another ground than the one it was
// measured on. The coat sends back single on the ground clay, and would send
// back black on a black one; all are reflectances, 0 < black ≤ single < 1.
//
// Source: Kubelka, J. Opt. Soc. Am. 38 (1948) 448–457, the reflectance of a
// layer on a ground: R = R0 + T²·Rg / (1 − R0·Rg). The coat's T² is had from
// single and clay, then used on ground.
func over(black, single, clay, ground float64) float64 {
	passes := (single - black) * (1 - black*clay) / clay // T²
	return black + passes*ground/(1-black*ground)
}

// lay is the color of a coat of a glaze that looks like single on clay, when
// it lies on ground. It covers to the share given, 0–1: so much of what it
// sends back it would send back on black, too.
func lay(single, clay, ground light, share float64) light {
	var out light
	for k := range out {
		out[k] = within(over(share*single[k], single[k], clay[k], ground[k]))
	}
	return out
}
