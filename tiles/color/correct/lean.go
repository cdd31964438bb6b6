package correct

import "math"

// firm is how firmly a contrast found in colored patches is held to none:
// their channels differ by more than the tone curve.
const contrastRidge = 0.01

// pale is the C*ab at which a patch counts half for the contrast.
const paleChroma = 10.0

// leaning draws each channel's curve as a straight line through the cube roots
// of all patches' light, neutral or not. One contrast is shared by the three
// lines, v = a + b·u with the same a: a camera's tone curve is the same for all
// its channels, and what one channel sees differently in one color evens out
// over all.
func leaning(patches []patch) (out [3]curve) {
	var u, uu, uv [3]float64
	var n, v float64
	for _, p := range patches {
		w := 1 / (1 + math.Pow(p.Lab.Chroma()/paleChroma, 2))
		for k := range 3 {
			file, want := math.Cbrt(p.RGB[k]), math.Cbrt(p.want[k])
			u[k] += w * file
			uu[k] += w * file * file
			uv[k] += w * file * want
			v += w * want
			n += w
		}
	}
	// Least squares with firm·n·a² added, the three b's eliminated.
	top, bottom := v, n*(1+contrastRidge)
	for k := range 3 {
		if uu[k] > 0 {
			top -= uv[k] * u[k] / uu[k]
			bottom -= u[k] * u[k] / uu[k]
		}
	}
	a := top / bottom
	for k := range out {
		out[k] = straight(1)
		if b := (uv[k] - a*u[k]) / uu[k]; b > 0 {
			out[k] = line(a, b)
		}
	}
	return out
}
