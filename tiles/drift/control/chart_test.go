package control

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func points(values ...float64) []Point {
	ps := make([]Point, len(values))
	for i, v := range values {
		ps[i] = Point{Value: v}
	}
	return ps
}

func TestIndividualsOnTheHandbooksExample(t *testing.T) {
	// NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2: flow rate of
	// ten batches.
	c := Individuals(points(49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1))
	assert.InDelta(t, 50.81, c.Mean, 1e-9)
	assert.InDelta(t, 1.8778, c.MeanRange, 0.00005)
	assert.InDelta(t, 55.8041, c.High, 0.0005)
	assert.InDelta(t, 45.8159, c.Low, 0.0005)
	assert.True(t, c.Provisional)
	for _, s := range c.Signals {
		assert.False(t, s.Rule.Act(), "the handbook finds every point inside the limits")
	}
}

func TestIndividualsOfSpecificGravity(t *testing.T) {
	// Derived: mean 1.454, mean range 0.015, ± 3 × 0.015 / 1.128.
	c := Individuals(points(1.45, 1.46, 1.44, 1.45, 1.47))
	assert.InDelta(t, 1.454, c.Mean, 1e-9)
	assert.InDelta(t, 1.4141, c.Low, 0.00005)
	assert.InDelta(t, 1.4939, c.High, 0.00005)
	assert.InDelta(t, 3.267*0.015, c.RangeHigh, 1e-9)
}

func TestIndividualsOfNothing(t *testing.T) {
	for _, values := range [][]float64{nil, {3}, {3, 3, 3}} {
		c := Individuals(points(values...))
		assert.Empty(t, c.Signals)
		assert.Zero(t, c.Sigma)
	}
}

// Later points do not move the limits: a bucket that drifts must not teach
// the chart that drift is ordinary.
func TestLimitsStandOnTheBaseline(t *testing.T) {
	values := make([]float64, 0, 60)
	for i := range 25 {
		values = append(values, float64(i%2))
	}
	before := Individuals(points(values...))
	for range 20 {
		values = append(values, 9)
	}
	after := Individuals(points(values...))
	assert.False(t, after.Provisional)
	assert.Equal(t, before.High, after.High)
	rule, ok := after.Last()
	assert.True(t, ok)
	assert.True(t, rule.Act())
}
