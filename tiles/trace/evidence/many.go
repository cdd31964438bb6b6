package evidence

import "sort"

// Adjust turns the p-values of many questions asked at once into q-values by
// the step-up of Benjamini and Hochberg (JRSS B 57:289, 1995): naming all
// with q ≤ 0.05 keeps the expected share of wrongly named at 5 %. The order
// of the answers is the order of the questions.
func Adjust(ps []float64) []float64 {
	order := make([]int, len(ps))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return ps[order[i]] > ps[order[j]] })
	qs := make([]float64, len(ps))
	least := 1.0
	for i, at := range order {
		rank := len(ps) - i
		least = min(least, ps[at]*float64(len(ps))/float64(rank))
		qs[at] = least
	}
	return qs
}
