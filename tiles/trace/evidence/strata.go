package evidence

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// z95 is the standard normal quantile of a two-sided 95 % interval.
var z95 = distuv.UnitNormal.Quantile(0.975)

// Strata is the same question asked inside several groups of pieces, such as
// the loads of a kiln, so that a difference between the groups is not taken
// for a difference between the pieces.
type Strata []Table

// Telling is the strata that tell something: with and without side by side,
// and both good and faulty pieces.
func (s Strata) Telling() Strata {
	var kept Strata
	for _, t := range s {
		if t.Tells() {
			kept = append(kept, t)
		}
	}
	return kept
}

// Odds is the Mantel–Haenszel common odds ratio (Mantel and Haenszel, JNCI
// 22:719, 1959) with the interval of Robins, Breslow and Greenland
// (Biometrics 42:311, 1986). ok is false where no stratum tells anything. The
// value is +Inf where every fault is on the side with, and then Low is 0 and
// High +Inf: this interval has no answer there; Exact has.
func (s Strata) Odds() (odds Interval, ok bool) {
	var r, q, pr, ps, qs float64
	for _, t := range s {
		n := float64(t.Pieces())
		if n == 0 {
			continue
		}
		a, b := float64(t.WithFaults), float64(t.With-t.WithFaults)
		c, d := float64(t.WithoutFaults), float64(t.Without-t.WithoutFaults)
		ri, qi, pi := a*d/n, b*c/n, (a+d)/n
		r += ri
		q += qi
		pr += pi * ri
		ps += pi*qi + (1-pi)*ri
		qs += (1 - pi) * qi
	}
	if r == 0 && q == 0 {
		return Interval{}, false
	}
	if r == 0 || q == 0 {
		return Interval{Value: r / q, High: math.Inf(1)}, true
	}
	sd := math.Sqrt(pr/(2*r*r) + ps/(2*r*q) + qs/(2*q*q))
	return Interval{r / q, r / q * math.Exp(-z95*sd), r / q * math.Exp(z95*sd)}, true
}

// ChiSquared is the Mantel–Haenszel statistic with continuity correction, one
// degree of freedom, and its p-value.
func (s Strata) ChiSquared() (x2, p float64) {
	var over, variance float64
	for _, t := range s {
		n := float64(t.Pieces())
		if n < 2 {
			continue
		}
		with, without := float64(t.With), float64(t.Without)
		bad, good := float64(t.Faults()), n-float64(t.Faults())
		over += float64(t.WithFaults) - with*bad/n
		variance += with * without * bad * good / (n * n * (n - 1))
	}
	if variance == 0 {
		return 0, 1
	}
	x2 = math.Pow(max(0, math.Abs(over)-0.5), 2) / variance
	return x2, distuv.ChiSquared{K: 1}.Survival(x2)
}

// exactLimit is the most faults, over the strata that tell, that Exact works
// out in full; above it the chi-squared statistic is as good and much quicker.
const exactLimit = 4000

// Exact is the exact conditional test that the odds are 1 in every stratum,
// two-sided: the sum of the faults on the side with, margins fixed. Small
// strata, such as loads with one or two faults, are what it is for.
func (s Strata) Exact() Test {
	telling := s.Telling()
	if len(telling) == 0 {
		return Test{P: 1}
	}
	sum, bad := 0, 0
	for _, t := range telling {
		sum += t.WithFaults
		bad += t.Faults()
	}
	if bad > exactLimit {
		_, p := telling.ChiSquared()
		return Test{P: p, LogP: math.Log(p)}
	}
	low, chances := telling.sumOfFaults()
	at := chances[sum-low]
	p := 0.0
	for _, c := range chances {
		if c <= at*tie {
			p += c
		}
	}
	p = min(p, 1)
	return Test{P: p, LogP: math.Log(p)}
}

// sumOfFaults is the chance of each total of faults with, over all strata.
func (s Strata) sumOfFaults() (low int, chances []float64) {
	chances = []float64{1}
	for _, t := range s {
		first, logs := hypergeometric(t)
		low += first
		all := logSum(logs, math.Inf(1))
		next := make([]float64, len(chances)+len(logs)-1)
		for i, l := range logs {
			share := math.Exp(l - all)
			for j, c := range chances {
				next[i+j] += share * c
			}
		}
		chances = next
	}
	return low, chances
}
