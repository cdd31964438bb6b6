package evidence

import "math"

// Rate is the share of faults, 0–1, with Wilson's score interval (E. B.
// Wilson, JASA 22:209, 1927; Newcombe, Statistics in Medicine 17:857, 1998,
// method 3). Without pieces it is 0 to 1.
func Rate(faults, pieces int) Interval {
	if pieces == 0 {
		return Interval{High: 1}
	}
	n, p := float64(pieces), float64(faults)/float64(pieces)
	z2 := z95 * z95
	middle := (p + z2/(2*n)) / (1 + z2/n)
	half := z95 / (1 + z2/n) * math.Sqrt(p*(1-p)/n+z2/(4*n*n))
	return Interval{Value: p, Low: max(0, middle-half), High: min(1, middle+half)}
}

// Ratio is the risk ratio, the share of faults with over the share without,
// with its score interval (Koopman, Biometrics 40:513, 1984). High is +Inf
// where no piece without has the fault; ok is false where a side is empty or
// nobody has the fault.
func Ratio(t Table) (ratio Interval, ok bool) {
	if t.With == 0 || t.Without == 0 || t.Faults() == 0 {
		return Interval{}, false
	}
	with := float64(t.WithFaults) / float64(t.With)
	without := float64(t.WithoutFaults) / float64(t.Without)
	ratio = Interval{Value: with / without, High: math.Inf(1)}
	start := with / without
	if t.WithFaults == 0 || t.WithoutFaults == 0 {
		start = (float64(t.WithFaults) + 0.5) / (float64(t.With) + 0.5) *
			(float64(t.Without) + 0.5) / (float64(t.WithoutFaults) + 0.5)
	}
	if t.WithFaults > 0 {
		ratio.Low = scoreBound(t, start, 1/scoreStep)
	}
	if t.WithoutFaults > 0 {
		ratio.High = scoreBound(t, start, scoreStep)
	}
	return ratio, true
}

// scoreStep is how far a bracket of the bound grows at a time.
const scoreStep = 4.0

// scoreBound is the ratio at which the score statistic crosses z95², found by
// halving between start, which is inside the interval, and a point outside.
func scoreBound(t Table, start, step float64) float64 {
	inside, outside := start, start*step
	for ratioScore(t, outside) < z95*z95 {
		if outside < 1e-9 || outside > 1e9 {
			return outside
		}
		inside, outside = outside, outside*step
	}
	for range 80 {
		middle := math.Sqrt(inside * outside)
		if ratioScore(t, middle) < z95*z95 {
			inside = middle
		} else {
			outside = middle
		}
	}
	return math.Sqrt(inside * outside)
}

// ratioScore is Koopman's chi-squared at a given ratio: the distance of the
// counts from the likeliest shares that have this ratio.
func ratioScore(t Table, ratio float64) float64 {
	x1, n1 := float64(t.WithFaults), float64(t.With)
	x2, n2 := float64(t.WithoutFaults), float64(t.Without)
	a := (n1 + n2) * ratio
	b := n1*ratio + x1 + n2 + x2*ratio
	root := math.Sqrt(max(0, b*b-4*a*(x1+x2)))
	p2 := 2 * (x1 + x2) / (b + root) // the smaller root, without cancellation
	p1 := ratio * p2
	gap := x1/n1 - ratio*x2/n2
	variance := p1*(1-p1)/n1 + ratio*ratio*p2*(1-p2)/n2
	if variance <= 0 {
		return math.Inf(1)
	}
	return gap * gap / variance
}
