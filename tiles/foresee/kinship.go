package foresee

import "math"

// How much what one pair came out otherwise than by the rule says of another,
// as variances of one CIELAB axis (ΔE²), found on simulated walls.
const (
	sameFirst  = 1.0
	sameSecond = 5.0
	alike      = 15.0
	alikeWidth = 2600.0 // ΔE*ab² of both glazes at which alikeness falls to 1/e
	reversed   = 1.5
	itself     = 16.0 // what is the pair's own, the repeat's noise with it
)

// kinship is the covariance of two pairs' residues, without what is the
// pair's own. Symmetric and positive: a sum of indicator kernels and of a
// Gaussian one.
func (s Studio) kinship(p, q Pair) float64 {
	k := alike * math.Exp(-(square(s.Singles[p.First], s.Singles[q.First])+square(s.Singles[p.Second], s.Singles[q.Second]))/alikeWidth)
	if p.First == q.First {
		k += sameFirst
	}
	if p.Second == q.Second {
		k += sameSecond
	}
	if p.First == q.Second && p.Second == q.First || p.First == q.First && p.Second == q.Second {
		k += reversed
	}
	return k
}
