package foresee

import (
	"math"
	"slices"
)

// Radius is how far off such guesses are on this wall, ΔE00: half of them
// within Half, nine in ten within Ninety.
type Radius struct{ Half, Ninety float64 }

// The shares of guesses that the two radii are to hold.
const half, ninety = 0.5, 0.9

// radiusOf is the two radii from what the left-out pairs were off. Where a new
// pair is off no otherwise than those, each holds for at least its share, and
// for at most 1/(m+1) more.
//
// Source: Barber, Candès, Ramdas and Tibshirani, Annals of Statistics 49
// (2021) 486–507, Predictive inference with the jackknife+: the ⌈p(m+1)⌉-th
// least of the leave-one-out residuals, there about each left-out fit, here
// about the one of all.
func radiusOf(errors []float64) Radius {
	sorted := slices.Clone(errors)
	slices.Sort(sorted)
	return Radius{Half: rank(sorted, half), Ninety: rank(sorted, ninety)}
}

// rank is the ⌈p(m+1)⌉-th least; +Inf where m is too few for it.
func rank(sorted []float64, p float64) float64 {
	at := int(math.Ceil(p*float64(len(sorted)+1))) - 1
	if at >= len(sorted) {
		return math.Inf(1)
	}
	return sorted[at]
}
