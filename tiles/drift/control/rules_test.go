package control

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// chartOf holds points against known limits: mean 0, sigma 1.
func chartOf(values ...float64) Chart {
	return Chart{Points: points(values...), Sigma: 1, Low: -3, High: 3, RangeHigh: d4 * d2}
}

func TestRules(t *testing.T) {
	for _, c := range []struct {
		values []float64
		want   Rule
	}{
		{[]float64{0, 3.1}, Beyond},
		{[]float64{0, -3.1}, Beyond},
		{[]float64{2.1, 0.5, 2.1}, Two},
		{[]float64{2.1, 2.1}, Two},
		{[]float64{1.1, 1.1, 0.5, 1.1, 1.1}, Four},
		{[]float64{-.1, -.2, -.1, -.3, -.1, -.2, -.1, -.1}, Eight},
		{[]float64{1.9, -1.9}, Jump},
	} {
		chart := chartOf(c.values...)
		assert.Contains(t, chart.signals(), Signal{At: len(c.values) - 1, Rule: c.want}, "%v", c.values)
	}
}

func TestRulesKeepQuiet(t *testing.T) {
	for _, values := range [][]float64{
		{2.9, -0.1, 0.5}, {2.1, -2.1, 0}, {1.1, 1.1, -1.1, 1.1, 0.9}, {.1, .1, .1, .1, -.1, .1, .1, .1, .1},
	} {
		for _, s := range chartOf(values...).signals() {
			assert.Equal(t, Jump, s.Rule, "%v", values)
		}
	}
}

// On a bucket that never changes the four rules together speak once in 91.75
// points, rule 1 alone once in 370.4 (Champ and Woodall, Technometrics
// 29:393, 1987).
func TestFalseSignalsAreAsRareAsPublished(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	mean := func(act bool, runs int) float64 {
		total := 0
		for range runs {
			total += runLength(random, act)
		}
		return float64(total) / float64(runs)
	}
	all, first := mean(false, 4000), mean(true, 2000)
	t.Logf("points to a false signal: all rules %.1f (published 91.75), rule 1 %.0f (370.4)", all, first)
	assert.InDelta(t, 91.75, all, 6)
	assert.InDelta(t, 370.4, first, 35)
}

func runLength(random *rand.Rand, actOnly bool) int {
	window := chartOf()
	for n := 1; ; n++ {
		window.Points = append(window.Points, Point{Value: random.NormFloat64()})
		window.Points = window.Points[max(0, len(window.Points)-8):]
		at := len(window.Points) - 1
		for _, r := range runs {
			if (!actOnly || r.rule.Act()) && (window.holds(r, at, 1) || window.holds(r, at, -1)) {
				return n
			}
		}
	}
}
