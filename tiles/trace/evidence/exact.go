package evidence

import "math"

// tie is how far above the observed table's probability another may lie and
// still count as equally likely, so that rounding does not split ties.
const tie = 1 + 1e-7

// Test is the result of an exact test: P is the two-sided p-value, 0–1, and
// LogP its natural logarithm, which still orders the tables whose P is too
// small for a float64.
type Test struct {
	P, LogP float64
}

// Exact is Fisher's exact test, two-sided: the chance, margins fixed, of any
// table no more likely than this one (R. A. Fisher, The Design of
// Experiments, 1935, ch. 2; two-sided by the rule of minimum likelihood). A
// table that tells nothing has P = 1.
func Exact(t Table) Test {
	if !t.Tells() {
		return Test{P: 1}
	}
	low, logs := hypergeometric(t)
	limit := logs[t.WithFaults-low] + math.Log(tie)
	all := logSum(logs, math.Inf(1))
	logP := min(logSum(logs, limit)-all, 0)
	return Test{P: math.Exp(logP), LogP: logP}
}

// hypergeometric is the logarithm, up to a constant, of the chance of each
// count of faults among the pieces with, margins fixed; low is the count the
// first stands for. Each term follows from the one before, which needs no
// factorials: P(k+1)/P(k) = (K−k)(n−k) / ((k+1)(N−K−n+k+1)).
func hypergeometric(t Table) (low int, logs []float64) {
	faults, with, good := t.Faults(), t.With, t.Pieces()-t.Faults()
	low = max(0, with-good)
	high := min(faults, with)
	logs = make([]float64, high-low+1)
	for k := low; k < high; k++ {
		up := float64(faults-k) * float64(with-k)
		down := float64(k+1) * float64(good-with+k+1)
		logs[k-low+1] = logs[k-low] + math.Log(up/down)
	}
	return low, logs
}

// logSum is the logarithm of the sum of the exponentials of those logs that
// are no larger than limit.
func logSum(logs []float64, limit float64) float64 {
	top := math.Inf(-1)
	for _, l := range logs {
		if l <= limit {
			top = max(top, l)
		}
	}
	sum := 0.0
	for _, l := range logs {
		if l <= limit {
			sum += math.Exp(l - top)
		}
	}
	return top + math.Log(sum)
}
