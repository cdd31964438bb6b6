package evidence

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestRateAgainstNewcombesTable(t *testing.T) {
	// Newcombe, Statistics in Medicine 17:857 (1998), table I, method 3.
	for _, row := range []struct {
		faults, pieces int
		low, high      float64
	}{
		{81, 263, 0.2553, 0.3662}, {15, 148, 0.0624, 0.1605},
		{0, 20, 0, 0.1611}, {1, 29, 0.0061, 0.1718},
	} {
		got := Rate(row.faults, row.pieces)
		assert.InDelta(t, row.low, got.Low, 0.00005, "%d of %d", row.faults, row.pieces)
		assert.InDelta(t, row.high, got.High, 0.00005, "%d of %d", row.faults, row.pieces)
	}
}

func TestRatioAgainstKoopmansExample(t *testing.T) {
	// Koopman, Biometrics 40:513 (1984): 36 of 40 against 16 of 80 (figures
	// from memory; TestAgainstR works them out anew from the definition).
	got, ok := Ratio(Table{36, 40, 16, 80})
	assert.True(t, ok)
	assert.InDelta(t, 4.5, got.Value, 1e-9)
	assert.InDelta(t, 2.94, got.Low, 0.005)
	assert.InDelta(t, 7.15, got.High, 0.005)
}

func TestRatioAtTheEdges(t *testing.T) {
	_, ok := Ratio(Table{With: 4, Without: 5})
	assert.False(t, ok, "no faults at all")
	all, ok := Ratio(Table{WithFaults: 5, With: 5, Without: 40})
	assert.True(t, ok)
	assert.True(t, math.IsInf(all.Value, 1) && math.IsInf(all.High, 1))
	assert.Greater(t, all.Low, 3.0)
	none, ok := Ratio(Table{With: 40, WithoutFaults: 5, Without: 5})
	assert.True(t, ok)
	assert.Zero(t, none.Low)
	assert.Less(t, none.High, 1/3.0)
}

// The interval with the sides swapped is the interval turned upside down.
func TestRatioTurnsOver(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		table := anyTable(r, 50)
		if table.WithFaults == 0 || table.WithoutFaults == 0 {
			return
		}
		one, _ := Ratio(table)
		other, _ := Ratio(Table{table.WithoutFaults, table.Without, table.WithFaults, table.With})
		assert.InEpsilon(t, one.Low, 1/other.High, 1e-6)
		assert.InEpsilon(t, one.High, 1/other.Low, 1e-6)
		assert.LessOrEqual(t, one.Low, one.Value)
		assert.GreaterOrEqual(t, one.High, one.Value)
	})
}
