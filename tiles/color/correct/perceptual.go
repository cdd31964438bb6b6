package correct

import (
	"math"

	"github.com/twodip/twodip/tiles/color"
)

// perceptualWeight is the weight of a small change of light at a color: three
// rows, for lightness, chroma and hue, whose squares add up to about ΔE00² of a
// change of linear light. It is CIEDE2000 for equal colors, its rotation left out;
// least squares in these units is least squares in ΔE00.
func perceptualWeight(space *color.Matrix, at color.Lab, light RGB) (rows [3][3]float64) {
	fromMiddle, c := at.L-50, at.Chroma()
	sL := 1 + 0.015*fromMiddle*fromMiddle/math.Sqrt(20+fromMiddle*fromMiddle)
	sC, sH := 1+0.045*c, 1+0.015*c
	c7 := math.Pow(c, 7)
	stretch := 1.5 - 0.5*math.Sqrt(c7/(c7+math.Pow(25, 7))) // 1 + G, of a*
	cos, sin := 1.0, 0.0
	if c > 0 {
		cos, sin = at.A/c, at.B/c
	}
	for k := range light {
		d := slope(space, light, k)
		d.A *= stretch
		rows[0][k] = d.L / sL
		rows[1][k] = (cos*d.A + sin*d.B) / sC
		rows[2][k] = (cos*d.B - sin*d.A) / sH
	}
	return rows
}

// slope is how L*, a* and b* change with the light of one channel.
func slope(space *color.Matrix, light RGB, channel int) color.Lab {
	hair := 1e-5 + 1e-3*math.Abs(light[channel])
	lab := func(v RGB) color.Lab {
		x, y, z := space.Times(v[0], v[1], v[2])
		return color.XYZ{X: x, Y: y, Z: z}.Lab()
	}
	below, above := light, light
	below[channel] -= hair
	above[channel] += hair
	p, q := lab(below), lab(above)
	return color.Lab{L: (q.L - p.L) / (2 * hair), A: (q.A - p.A) / (2 * hair), B: (q.B - p.B) / (2 * hair)}
}
