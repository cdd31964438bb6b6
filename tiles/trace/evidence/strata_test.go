package evidence

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// berkeley is the 1973 admissions by department (Bickel, Hammel and
// O'Connell, Science 187:398, 1975; R's dataset UCBAdmissions): with = men,
// faults = admitted.
var berkeley = Strata{
	{512, 825, 89, 108}, {353, 560, 17, 25}, {120, 325, 202, 593},
	{138, 417, 131, 375}, {53, 191, 94, 393}, {22, 373, 24, 341},
}

// rabbits is the delayed effect of penicillin, by dose (Mantel 1963, Agresti
// 1990 table 3.15; R ?mantelhaen.test).
var rabbits = Strata{
	{0, 6, 0, 5}, {3, 6, 0, 6}, {6, 6, 2, 6}, {5, 6, 6, 6}, {2, 2, 5, 5},
}

func TestOddsOnTheBerkeleyAdmissions(t *testing.T) {
	// R 4: mantelhaen.test(UCBAdmissions), and the same with exact = TRUE.
	odds, ok := berkeley.Odds()
	assert.True(t, ok)
	assert.InDelta(t, 0.9046968283, odds.Value, 1e-9)
	assert.InDelta(t, 0.7719073618, odds.Low, 1e-9)
	assert.InDelta(t, 1.0603297644, odds.High, 1e-9)
	x2, p := berkeley.ChiSquared()
	assert.InDelta(t, 1.4269462, x2, 1e-6)
	assert.InDelta(t, 0.2322634628, p, 1e-9)
	assert.InDelta(t, 0.2277625, berkeley.Exact().P, 1e-6)
}

func TestOddsOnThePenicillinRabbits(t *testing.T) {
	// R 4: mantelhaen.test(Rabbits), ?mantelhaen.test, and with exact = TRUE.
	odds, ok := rabbits.Odds()
	assert.True(t, ok)
	assert.InDelta(t, 7, odds.Value, 1e-9)
	assert.InDelta(t, 1.026712688, odds.Low, 1e-8)
	assert.InDelta(t, 47.725133380, odds.High, 1e-7)
	x2, p := rabbits.ChiSquared()
	assert.InDelta(t, 3.9285714, x2, 1e-6)
	assert.InDelta(t, 0.04747226, p, 1e-7)
	assert.InDelta(t, 0.0399449, rabbits.Exact().P, 1e-6)
}

// Pooled, the men look favored; inside the departments they are not. That is
// what the strata are for.
func TestStrataUndoAPooledDifference(t *testing.T) {
	var pooled Table
	for _, s := range berkeley {
		pooled.WithFaults += s.WithFaults
		pooled.With += s.With
		pooled.WithoutFaults += s.WithoutFaults
		pooled.Without += s.Without
	}
	assert.Less(t, Exact(pooled).P, 1e-20)
	assert.Greater(t, berkeley.Exact().P, 0.2)
}

func TestOddsWhereNothingCanBeTold(t *testing.T) {
	_, ok := Strata{{WithFaults: 3, With: 3}, {Without: 9}}.Odds()
	assert.False(t, ok)
	assert.Equal(t, 1.0, Strata{}.Exact().P)
	odds, ok := Strata{{WithFaults: 3, With: 3, Without: 9}}.Odds()
	assert.True(t, ok)
	assert.True(t, math.IsInf(odds.Value, 1))
}

func TestOneStratumIsFishersTest(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		table := anyTable(r, 40)
		assert.InDelta(t, Exact(table).P, Strata{table}.Exact().P, 1e-9)
	})
}

func TestManyFaultsAreTestedByChiSquared(t *testing.T) {
	large := Strata{{WithFaults: 3000, With: 6000, WithoutFaults: 2900, Without: 6000}}
	_, p := large.ChiSquared()
	assert.Equal(t, p, large.Exact().P)
	assert.InDelta(t, Exact(large[0]).P, p, 0.001)
}
