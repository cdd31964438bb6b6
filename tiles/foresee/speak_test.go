package foresee

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Tail chances of the binomial with p = 0.5 as tables of it print them (among
// others Siegel, Nonparametric Statistics, 1956, table D; from memory).
func TestSignTestAsInTables(t *testing.T) {
	for _, c := range []struct {
		better, worse int
		want          float64
	}{{8, 0, 0.004}, {7, 1, 0.035}, {9, 1, 0.011}, {10, 2, 0.019}, {15, 5, 0.021}, {17, 8, 0.054}, {5, 5, 0.623}, {0, 6, 1}, {0, 0, 1}} {
		assert.InDelta(t, c.want, signTest(c.better, c.worse), 0.0005, "%d of %d", c.better, c.better+c.worse)
	}
}

func TestSilentWithFewOrNoTiles(t *testing.T) {
	for _, s := range []Studio{{}, usual.studio(1, 0), {Singles: usual.studio(1, 4).Singles, Pairs: usual.studio(1, 4).Pairs[:fewest-1]}} {
		st := Learn(s).Standing()
		assert.False(t, st.Speaks)
		assert.Equal(t, "too few tiles to guess from; 12 more would tell", st.Why)
	}
}
