package foresee

import (
	"cmp"
	"slices"

	"github.com/twodip/twodip/tiles/color"
)

// Toward is a cell and how far its guess is from a wanted color, ΔE00.
type Toward struct {
	Cell
	Guess color.Lab
	Away  float64
}

// Toward is the open cells whose guesses are nearest to a wanted color, at
// most count, the nearest first and of equals in the order given.
func (f *Foresight) Toward(wanted color.Lab, open []Cell, count int) []Toward {
	var all []Toward
	for _, c := range open {
		g := f.Guess(c.First, c.Second)
		all = append(all, Toward{Cell: c, Guess: g, Away: color.DE00(wanted, g)})
	}
	slices.SortStableFunc(all, func(a, b Toward) int { return cmp.Compare(a.Away, b.Away) })
	return all[:min(max(count, 0), len(all))]
}
