package foresee

import (
	"cmp"
	"slices"

	"github.com/twodip/twodip/tiles/color"
)

// Surprise is a fired pair that came out further from its guess than nine in
// ten do; the guess is made from all the others, without it and its reverse.
type Surprise struct {
	Pair  int // its place in Pairs
	Guess color.Lab
	Away  float64 // ΔE00
}

// Surprises is the fired pairs that nothing on the wall foretold, the furthest
// off first.
func (f *Foresight) Surprises() []Surprise {
	limit := radiusOf(f.Errors).Ninety
	var all []Surprise
	for k, e := range f.Errors {
		if e > limit {
			all = append(all, Surprise{Pair: k, Guess: f.Outs[k], Away: e})
		}
	}
	slices.SortStableFunc(all, func(a, b Surprise) int { return cmp.Compare(b.Away, a.Away) })
	return all
}
