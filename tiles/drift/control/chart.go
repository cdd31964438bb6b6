package control

import "math"

// Point is one measurement, in order of time. Label says when or where
// ("load 7"); Number is the tile or row it came from, for a link; 0 = none.
type Point struct {
	Label  string  `json:"label"`
	Number int     `json:"number,omitempty"`
	Value  float64 `json:"value"`
}

// Baseline is how many points, from the first on, the limits are worked out
// from; later points are held against them. Under Enough they are provisional
// (20 to 25: common practice, no source).
const (
	Baseline = 25
	Enough   = 20
)

// d2 and d4 are the factors of a moving range of two points: its mean is d2
// sigma, its upper limit d4 times its mean (NIST/SEMATECH e-Handbook of
// Statistical Methods, 6.3.2.2).
const (
	d2 = 1.128
	d4 = 3.267
)

// Chart is an individuals and moving-range chart: limits at the mean ± 3
// sigma, sigma being the mean moving range ÷ 1.128 (2.66 mean ranges).
type Chart struct {
	Points      []Point  `json:"points"`
	Mean        float64  `json:"mean"`
	Sigma       float64  `json:"sigma"`
	Low         float64  `json:"low"` // limits of a single point
	High        float64  `json:"high"`
	MeanRange   float64  `json:"meanRange"`
	RangeHigh   float64  `json:"rangeHigh"`   // limit of a moving range
	Provisional bool     `json:"provisional"` // fewer than Enough points stand behind the limits
	Signals     []Signal `json:"signals"`
	Tolerance   float64  `json:"tolerance,omitempty"` // where not 0: mean and limits are a target and what is allowed around it
}

// OnTarget holds points against a target that was set before any of them, and
// what is allowed around it: later points that are far off do not move the
// limits, so that one on target is never signaled. Only a point beyond them is.
func OnTarget(points []Point, target, tolerance float64) Chart {
	c := Chart{Points: points, Provisional: len(points) < Enough, Tolerance: tolerance,
		Mean: target, Sigma: tolerance / 3, Low: target - tolerance, High: target + tolerance}
	const touch = 1e-9
	for i, p := range points {
		if math.Abs(p.Value-target) > tolerance+touch {
			c.Signals = append(c.Signals, Signal{At: i, Rule: Beyond})
		}
	}
	return c
}

// Individuals makes the chart of points in order of time. Below two points
// there are no limits: Sigma is 0 and nothing is signaled.
func Individuals(points []Point) Chart {
	c := Chart{Points: points, Provisional: len(points) < Enough}
	base := points[:min(len(points), Baseline)]
	if len(base) == 0 {
		return c
	}
	for _, p := range base {
		c.Mean += p.Value / float64(len(base))
	}
	for i := 1; i < len(base); i++ {
		c.MeanRange += math.Abs(base[i].Value-base[i-1].Value) / float64(len(base)-1)
	}
	c.Sigma = c.MeanRange / d2
	c.Low, c.High = c.Mean-3*c.Sigma, c.Mean+3*c.Sigma
	c.RangeHigh = d4 * c.MeanRange
	if c.Sigma > 0 {
		c.Signals = c.signals()
	}
	return c
}
