package correct

import (
	"math"

	"github.com/twodip/twodip/tiles/color"
)

// contrast is what a phone adds to sRGB's own curve at the least: that much of an
// S about the middle of the encoded range. Makers add 0.1 to 0.5 of it (from
// memory, no source); one neutral cannot tell, and to assume some is nearer than
// none.
const contrast = 0.2

// undone is file light, 0 to 1, with a phone's usual contrast taken out, by
// Newton's steps on (1 − c)·v + c·v²·(3 − 2v).
func undone(file float64) float64 {
	coded := color.Encoded(min(max(file, 0), 1))
	v := coded
	for range 20 {
		over := (1-contrast)*v + contrast*v*v*(3-2*v) - coded
		v -= over / ((1 - contrast) + contrast*(6*v-6*v*v))
	}
	return color.Linear(v)
}

// ofOne is a phone's usual curves through one neutral.
func ofOne(p patch) (out [3]curve) {
	for k := range out {
		scale := p.want[k] / undone(p.RGB[k])
		out[k] = drawn(func(float64) float64 { return scale })
	}
	return out
}

// drawn samples a curve: the usual contrast undone, times a scale that may change
// with the cube root of the file's light.
func drawn(scale func(x float64) float64) curve {
	const steps = 24
	knots := make([]knot, 0, steps+1)
	for i := range steps + 1 {
		x := float64(i) / steps
		file := x * x * x
		knots = append(knots, knot{file, scale(x) * undone(file)})
	}
	return through(knots)
}

// paperTint is how much is believed of what a paper of which nothing else is known
// says about single channels: it is much less sure of its tint than of its lightness.
const paperTint = 0.5

// ownTint is the same of a paper whose color a chart showed.
const ownTint = 0.75

// ofTwo is curves through two neutrals, of the second's tint so much being believed,
// 0 to 1.
func ofTwo(sure, light patch, believed float64) (out [3]curve) {
	var from, way [3]float64
	mean := 0.0
	for k := range out {
		from[k] = math.Log(sure.want[k] / undone(sure.RGB[k]))
		way[k] = math.Log(light.want[k]/undone(light.RGB[k])) - from[k]
		mean += way[k] / 3
	}
	for k := range out {
		x0, x1 := math.Cbrt(sure.RGB[k]), math.Cbrt(light.RGB[k])
		change := believed*way[k] + (1-believed)*mean
		out[k] = drawn(func(x float64) float64 {
			return math.Exp(from[k] + change*min(max((x-x0)/(x1-x0), 0), 1))
		})
	}
	return out
}
