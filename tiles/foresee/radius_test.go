package foresee

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Where a new error is drawn as the others were, the ⌈p(m+1)⌉-th least of m
// holds it with a chance of at least p and at most p + 1/(m+1): Lei, G'Sell,
// Rinaldo, Tibshirani and Wasserman, JASA 113 (2018), theorem 2.2. 40,000 draws
// scatter by 0.0025.
func TestRadiusHoldsWithinItsFiniteBound(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for _, m := range []int{16, 40, 101} {
		const draws = 40000
		var inHalf, inNinety float64
		for range draws {
			errors := make([]float64, m)
			for i := range errors {
				errors[i] = math.Exp(r.NormFloat64())
			}
			radius, next := radiusOf(errors), math.Exp(r.NormFloat64())
			if next <= radius.Half {
				inHalf += 1.0 / draws
			}
			if next <= radius.Ninety {
				inNinety += 1.0 / draws
			}
		}
		for _, c := range []struct{ p, held float64 }{{half, inHalf}, {ninety, inNinety}} {
			assert.GreaterOrEqual(t, c.held, c.p-0.01, "m = %d", m)
			assert.LessOrEqual(t, c.held, c.p+1/float64(m+1)+0.01, "m = %d", m)
		}
	}
	assert.True(t, math.IsInf(radiusOf([]float64{1, 2, 3}).Ninety, 1), "three errors say nothing of nine in ten")
}
