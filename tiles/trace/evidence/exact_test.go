package evidence

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestExactOnPublishedTables(t *testing.T) {
	// R 4, ?fisher.test. Tea tasting: Fisher, The Design of Experiments
	// (1935). Convictions: Fisher's table of twins of convicts, 1962.
	tea := Table{WithFaults: 3, With: 4, WithoutFaults: 1, Without: 4}
	assert.InDelta(t, 0.4857142857, Exact(tea).P, 1e-9)
	twins := Table{WithFaults: 2, With: 17, WithoutFaults: 10, Without: 13}
	assert.InDelta(t, 0.0005367241191, Exact(twins).P, 1e-12)
}

func TestExactWhereNothingCanBeTold(t *testing.T) {
	for _, table := range []Table{
		{}, {With: 5, Without: 3}, {WithFaults: 2, With: 5},
		{WithFaults: 5, With: 5, WithoutFaults: 3, Without: 3},
	} {
		assert.Equal(t, 1.0, Exact(table).P, "%+v", table)
	}
}

func TestExactOrdersTablesBeyondFloat64(t *testing.T) {
	strong := Exact(Table{WithFaults: 900, With: 1000, WithoutFaults: 100, Without: 9000})
	stronger := Exact(Table{WithFaults: 950, With: 1000, WithoutFaults: 100, Without: 9000})
	assert.Zero(t, strong.P)
	assert.Less(t, stronger.LogP, strong.LogP)
}

// A p-value must be a chance, the same with the sides swapped, and no smaller
// than the table's own chance worked out from factorials.
func TestExactAgainstFactorials(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		table := anyTable(r, 60)
		swapped := Table{table.WithoutFaults, table.Without, table.WithFaults, table.With}
		p := Exact(table).P
		assert.InDelta(t, p, Exact(swapped).P, 1e-9)
		assert.InDelta(t, byFactorials(table), p, 1e-9)
	})
}

func anyTable(r *rapid.T, most int) Table {
	with := rapid.IntRange(0, most).Draw(r, "with")
	without := rapid.IntRange(0, most).Draw(r, "without")
	return Table{
		With: with, WithFaults: rapid.IntRange(0, with).Draw(r, "with faults"),
		Without: without, WithoutFaults: rapid.IntRange(0, without).Draw(r, "without faults"),
	}
}

// byFactorials is the same p-value the slow way: each table's chance from
// log-gamma.
func byFactorials(t Table) float64 {
	if !t.Tells() {
		return 1
	}
	choose := func(n, k int) float64 {
		a, _ := math.Lgamma(float64(n + 1))
		b, _ := math.Lgamma(float64(k + 1))
		c, _ := math.Lgamma(float64(n - k + 1))
		return a - b - c
	}
	chance := func(k int) float64 {
		return math.Exp(choose(t.Faults(), k) + choose(t.Pieces()-t.Faults(), t.With-k) - choose(t.Pieces(), t.With))
	}
	p := 0.0
	for k := max(0, t.With+t.Faults()-t.Pieces()); k <= min(t.With, t.Faults()); k++ {
		if chance(k) <= chance(t.WithFaults)*tie {
			p += chance(k)
		}
	}
	return p
}
