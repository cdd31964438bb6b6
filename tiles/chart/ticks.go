package chart

import (
	"math"
	"strconv"
)

// ticks is round values across a range, about so many, and the decimals they need.
func ticks(low, high float64, about int) (values []float64, decimals int) {
	step := round((high - low) / float64(about))
	decimals = max(0, -int(math.Floor(math.Log10(step)+1e-9)))
	for k := math.Ceil(low/step - 1e-9); k*step <= high+step*1e-9; k++ {
		values = append(values, k*step)
	}
	return values, decimals
}

// round is the next 1, 2 or 5 times a power of ten.
func round(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, k := range []float64{1, 2, 5} {
		if x <= k*power*(1+1e-9) {
			return k * power
		}
	}
	return 10 * power
}

// figure writes a value with its own sign, a true minus.
func figure(x float64, decimals int) string {
	s := strconv.FormatFloat(math.Abs(x), 'f', decimals, 64)
	if x < 0 && s != strconv.FormatFloat(0, 'f', decimals, 64) {
		return "−" + s
	}
	return s
}
