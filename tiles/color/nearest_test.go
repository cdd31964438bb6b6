package color

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestBoundIsNeverMoreThanDE00(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyLab(t, "first"), anyLab(t, "second")
		if least, d := leastDE00(a, b), DE00(a, b); least > d+1e-12 {
			t.Fatalf("%v and %v: bound %v over %v", a, b, least, d)
		}
	})
	random := rand.New(rand.NewPCG(11, 12))
	for range 300_000 {
		a, b := randomLab(random), randomLab(random)
		near := Lab{a.L + (b.L-50)/40, a.A + b.A/40, a.B + b.B/40}
		require.LessOrEqual(t, leastDE00(a, b), DE00(a, b))
		require.LessOrEqual(t, leastDE00(a, near), DE00(a, near))
	}
}

// brute is Nearest without any pruning.
func brute(all []Place, c Lab, k int) []Match {
	byThing := map[int]Match{}
	for _, q := range all {
		m := Match{q, DE00(c, q.Lab)}
		if old, ok := byThing[q.Of]; !ok || compareMatches(m, old) < 0 {
			byThing[q.Of] = m
		}
	}
	var out []Match
	for _, m := range byThing {
		out = append(out, m)
	}
	slices.SortFunc(out, compareMatches)
	return slices.Clip(append([]Match(nil), out[:min(k, len(out))]...))
}

// glazed is places like those of a wall: means, and two parts for some.
func glazed(n int, random *rand.Rand) (out []Place) {
	for i := range n {
		c := Lab{10 + random.Float64()*85, random.NormFloat64() * 18, random.NormFloat64() * 22}
		out = append(out, Place{c, i, 0})
		if i%3 == 0 {
			out = append(out, Place{Lab{c.L + 5, c.A + 8, c.B}, i, 1}, Place{Lab{c.L - 5, c.A - 8, c.B}, i, 2})
		}
	}
	return out
}

func TestPrunedSearchIsTheBruteOne(t *testing.T) {
	random := rand.New(rand.NewPCG(13, 14))
	for _, n := range []int{0, 1, 5, 144, 3600} {
		all := glazed(n, random)
		places := NewPlaces(all)
		for range 40 {
			c := randomLab(random)
			for _, k := range []int{0, 1, 12} {
				assert.Equal(t, brute(all, c, k), places.Nearest(c, k), "%d things, %d nearest to %v", n, k, c)
			}
		}
	}
}

func BenchmarkNearest(b *testing.B) {
	random := rand.New(rand.NewPCG(15, 16))
	all := glazed(100_000, random)
	places := NewPlaces(all)
	asked := glazed(1024, random)
	b.Run("pruned", func(b *testing.B) {
		for i := range b.N {
			places.Nearest(asked[i&1023].Lab, 12)
		}
	})
	b.Run("brute", func(b *testing.B) {
		for i := range b.N {
			brute(all, asked[i&1023].Lab, 12)
		}
	})
}
