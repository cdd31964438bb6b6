package foresee

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What the closed form says of a pair left out is what one gets by fitting all
// anew without it and its reverse, the shares of covering among it.
func TestLeftOutIsFittedAnew(t *testing.T) {
	w := usual.make(7)
	s, _ := w.part(3)
	moved := 0
	for _, make := range []func(Studio) *cover{
		func(s Studio) *cover { return fitCover(s, mixing(s)) },
		func(s Studio) *cover { return fitCover(s, layering(lightsOf(s.Singles), lightOf(clayAt(70)))) },
	} {
		c := make(s)
		k, r, y := learnResidue(t, c)
		for at, o := range leaveOut(c, k, r, y, newIndex(s)) {
			rest := s
			p := s.Pairs[at]
			rest.Pairs = slices.DeleteFunc(slices.Clone(s.Pairs), func(q Pair) bool {
				return q.First == p.First && q.Second == p.Second || q.First == p.Second && q.Second == p.First
			})
			anew := make(rest)
			_, r, _ := learnResidue(t, anew)
			near := []float64{}
			for _, q := range rest.Pairs {
				near = append(near, s.kinship(p, q))
			}
			rule := anew.of(p.First, p.Second)
			assert.Equal(t, rule, o.rule, "pair %d by the rule", at)
			assert.InDelta(t, 0, square(axesOf(rule).plus(r.of(near)).lab(), o.residue), 1e-12, "pair %d with its residue", at)
			if !slices.Equal(c.best, anew.best) {
				moved++
			}
		}
	}
	assert.Greater(t, moved, 20, "pairs whose leaving changes a share")
}

func learnResidue(t *testing.T, c *cover) (*kin, residue, []axes) {
	t.Helper()
	y := c.left()
	k, ok := newKin(c.s)
	require.True(t, ok)
	return k, newResidue(k, y), y
}
