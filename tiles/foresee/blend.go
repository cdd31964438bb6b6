package foresee

import "github.com/twodip/twodip/tiles/color"

// ways is the number of ways to guess: two rules, each alone and with its
// residue.
const ways = 4

// weights say how much each way counts in the blend; they sum to 1.
type weights [ways]float64

// An error beyond this ΔE00 counts as this: no way foresees a surprise.
const farOff = 20

// weigh gives each way 1 / (mean squared error)², the errors being those of
// the left-out pairs.
func weigh(outs [][ways]color.Lab, s Studio) weights {
	var w weights
	sum := 0.0
	for i := range w {
		mean := 0.01 // keeps a way without error from dividing by none
		for k, p := range s.Pairs {
			e := min(color.DE00(outs[k][i], p.Lab), farOff)
			mean += e * e / float64(len(s.Pairs))
		}
		w[i] = 1 / (mean * mean)
		sum += w[i]
	}
	for i := range w {
		w[i] /= sum
	}
	return w
}

// blend is the weighted mean of the ways' guesses, in CIELAB.
func (w weights) blend(guesses [ways]color.Lab) color.Lab {
	var out axes
	for i, g := range guesses {
		out = out.plus(axesOf(g).times(w[i]))
	}
	return out.lab()
}
