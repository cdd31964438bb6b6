package correct

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// More light in the file is never less light in truth, whatever the knots:
// PCHIP keeps the order, and beyond its ends the curve goes on straight.
func TestCurvesOnlyClimb(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var knots []knot
		for range rapid.IntRange(1, 8).Draw(t, "knots") {
			knots = append(knots, knot{rapid.Float64Range(0, 1).Draw(t, "file"), rapid.Float64Range(0, 1).Draw(t, "true")})
		}
		c := through(knots)
		last := math.Inf(-1)
		for v := 0.0; v <= 1.2; v += 0.01 {
			at := c.at(v)
			if math.IsNaN(at) || at < last-1e-12 {
				t.Fatalf("%v falls from %v to %v at %v", knots, last, at, v)
			}
			last = at
		}
	})
}

func TestCurveMeetsItsKnots(t *testing.T) {
	knots := []knot{{0.03, 0.05}, {0.2, 0.18}, {0.7, 0.6}, {0.9, 0.88}}
	c := through(knots)
	for _, k := range knots {
		assert.InDelta(t, k.true, c.at(k.file), 1e-12)
	}
	scale := straight(1.7)
	assert.InDelta(t, 0.34, scale.at(0.2), 1e-12, "a scale is a scale of light")
}
