package correct

import "math"

// terms is how many terms a root-polynomial of degree 2 has.
const terms = 6

// roots is a root-polynomial of degree 2, one row a channel. It keeps colors
// when the light gets brighter, as a plain polynomial does not. Source:
// Finlayson, Mackiewicz and Hurlbert, "Color correction using root-polynomial
// regression", IEEE Trans. Image Process. 24 (2015) 1460–1470.
type roots [3][terms]float64

var identity = roots{{1}, {0, 1}, {0, 0, 1}}

func (m *roots) apply(rgb RGB) (out RGB) {
	t := termsOf(rgb)
	for k := range out {
		for i, v := range t {
			out[k] += m[k][i] * v
		}
	}
	return out
}

// termsOf is r, g, b, √rg, √gb, √rb; a product below zero counts as zero.
func termsOf(v RGB) [terms]float64 {
	root := func(a, b float64) float64 { return math.Sqrt(math.Max(0, a*b)) }
	return [terms]float64{v[0], v[1], v[2], root(v[0], v[1]), root(v[1], v[2]), root(v[0], v[2])}
}
