package foresee

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles/color"
)

// stagesOf cuts the fired pairs into firings of so many.
func stagesOf(pairs []Pair, size int) (stages [][]Pair) {
	for len(pairs) > size {
		stages, pairs = append(stages, pairs[:size]), pairs[size:]
	}
	return append(stages, pairs)
}

// What would have been said before each firing holds for what came out of it:
// guesses know nothing of the tiles they are held against.
func TestTheRecordHoldsAsSaid(t *testing.T) {
	var half, ninety, all int
	for seed := range seeds() {
		s := usual.studio(120000+seed, 8)
		w := usual.make(120000 + seed)
		w.random.Shuffle(len(s.Pairs), func(i, j int) { s.Pairs[i], s.Pairs[j] = s.Pairs[j], s.Pairs[i] })
		kept := Record(s.Singles, stagesOf(s.Pairs, 16))
		h, n := Held(kept)
		half, ninety, all = half+h, ninety+n, all+len(kept)
	}
	t.Logf("%d guesses before their firing: within half %.1f %%, within nine in ten %.1f %%", all, 100*float64(half)/float64(all), 100*float64(ninety)/float64(all))
	assert.InDelta(t, 0.525, float64(half)/float64(all), 0.075)
	assert.InDelta(t, 0.915, float64(ninety)/float64(all), 0.035)
}

func TestTheRecordDoesNotLookAhead(t *testing.T) {
	s := usual.studio(9, 8)
	before := Record(s.Singles, stagesOf(s.Pairs, 32))
	last := len(s.Pairs) - 1
	s.Pairs[last].Lab.L += 40 // whatever the last tile is, nothing before it moves
	after := Record(s.Singles, stagesOf(s.Pairs, 32))
	assert.NotEmpty(t, before)
	for k := range before {
		assert.Equal(t, before[k].Guess, after[k].Guess)
	}
	assert.Len(t, gathered(stagesOf(s.Pairs, 1), mostStages), mostStages)
}

// A tile that is made to come out quite otherwise is the first of the surprises.
func TestASurpriseIsFound(t *testing.T) {
	found := 0
	for seed := range uint64(10) {
		o := usual
		o.surprise = 0
		s := o.studio(130000+seed, 5)
		s.Pairs[7].Lab = color.Lab{L: 100 - s.Pairs[7].Lab.L, A: s.Pairs[7].Lab.A + 40, B: -s.Pairs[7].Lab.B}
		if all := Learn(s).Surprises(); len(all) > 0 && all[0].Pair == 7 {
			found++
		}
	}
	assert.GreaterOrEqual(t, found, 9)
}
