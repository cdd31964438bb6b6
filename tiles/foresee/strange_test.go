package foresee

import (
	"math"
	"math/rand/v2"

	"github.com/twodip/twodip/tiles/color"
)

// strange is a world without layers and light: two colors mix in CIELAB in a
// measure of both glazes' own, and then are pushed about by a smooth function
// of what the glazes hide. No rule here is of its making.
func strange(n int, seed uint64) *world {
	r := rand.New(rand.NewPCG(seed, 81))
	w := &world{scatter: 1.4, random: r, pairs: make([]color.Lab, n*n)}
	hidden := make([][3]float64, n)
	strength := make([]float64, n)
	for i := range n {
		angle, chroma := 2*math.Pi*r.Float64(), 45*math.Sqrt(r.Float64())
		w.singles = append(w.singles, color.Lab{L: 15 + 75*r.Float64(), A: chroma * math.Cos(angle) * 0.7, B: chroma*math.Sin(angle) + 8})
		hidden[i] = [3]float64{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}
		strength[i] = math.Exp(0.7 * r.NormFloat64())
	}
	push := pushes(r)
	for i := range n {
		for j := range n {
			share := 1.8 * strength[j] / (1.8*strength[j] + strength[i])
			c := axesOf(between(w.singles[i], w.singles[j], share)).plus(push(hidden[i], hidden[j]))
			c[0] = min(max(c[0], 5), 97)
			w.pairs[i*n+j] = c.lab()
		}
	}
	return w
}

// pushes is a random smooth function of what two glazes hide, 6 ΔE an axis in
// the mean square, by random features (Rahimi and Recht 2007).
func pushes(r *rand.Rand) func(a, b [3]float64) axes {
	const waves = 60
	var turn [waves][6]float64
	var phase [waves]float64
	var to [waves]axes
	for k := range waves {
		for d := range 6 {
			turn[k][d] = 0.7 * r.NormFloat64()
		}
		phase[k] = 2 * math.Pi * r.Float64()
		to[k] = axes{r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}.times(6 * math.Sqrt(2.0/waves))
	}
	return func(a, b [3]float64) axes {
		var out axes
		for k := range waves {
			at := phase[k]
			for d := range 3 {
				at += turn[k][d]*a[d] + turn[k][d+3]*b[d]
			}
			out = out.plus(to[k].times(math.Cos(at)))
		}
		return out
	}
}
