package trace

import (
	"fmt"
	"math"
	"strings"

	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/trace/evidence"
)

// figures is the numbers behind a finding, in one line, for whoever asks.
func (r *Report) figures(one Finding) string {
	parts := []string{
		"risk ratio " + interval(one.Ratio),
		"Fisher's exact test p " + chance(one.P),
		fmt.Sprintf("q %s after %d questions", chance(one.Q), r.Asked),
	}
	if in := one.Inside; in != nil && in.Groups > 0 {
		parts = append(parts, fmt.Sprintf("inside %s: odds ratio %s, exact p %s", english.Count(in.Groups, "load", "loads"), interval(in.Odds), chance(in.P)))
	}
	if one.Others != nil && one.Others.Without > 0 {
		parts = append(parts, "against the glaze's other batches p "+chance(one.OthersP))
	}
	return strings.Join(parts, "; ")
}

// interval is an estimate and its 95 % interval: "33 (12 to 90)".
func interval(i evidence.Interval) string {
	high := "to " + ratio(i.High)
	if math.IsInf(i.High, 1) {
		high = "and up"
	}
	if math.IsInf(i.Value, 1) {
		if i.Low == 0 {
			return "without bound"
		}
		return "above " + ratio(i.Low)
	}
	return fmt.Sprintf("%s (%s %s)", ratio(i.Value), ratio(i.Low), high)
}

func ratio(x float64) string {
	switch {
	case x >= 1e6:
		return "over a million"
	case x >= 10:
		return fmt.Sprintf("%.0f", x)
	case x >= 1:
		return fmt.Sprintf("%.1f", x)
	}
	return fmt.Sprintf("%.2f", x)
}

// chance is a p- or q-value as one reads it: "= 0.03", "< 0.0001".
func chance(p float64) string {
	switch {
	case p < 0.0001:
		return "< 0.0001"
	case p < 0.01:
		return fmt.Sprintf("= %.4f", p)
	}
	return fmt.Sprintf("= %.2f", p)
}
