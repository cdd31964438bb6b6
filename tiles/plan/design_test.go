package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// open is a design of n glazes in which every pair is allowed.
func open(n, k int) *design {
	d := newDesign(n, k)
	for i := range n {
		for j := range n {
			d.allowed[i][j] = i != j
		}
	}
	return d
}

// grown is the next design of n glazes and k partners that keeps d's pairs.
func (d *design) grown(n, k int) *design {
	g := open(n, k)
	for i := range d.n {
		for j := range d.n {
			if d.chosen[i][j] {
				g.fixed[i][j] = true
				g.add(i, j)
			}
		}
	}
	return g
}

// counts recounts from the matrix, so that the design's own sums are checked too.
func (d *design) counts() (least, most int) {
	least = d.n
	for i := range d.n {
		out, in := 0, 0
		for j := range d.n {
			if d.chosen[i][j] {
				out++
			}
			if d.chosen[j][i] {
				in++
			}
		}
		least, most = min(least, out, in), max(most, out, in)
	}
	return least, most
}

func (d *design) bothOrders() bool {
	for i := range d.n {
		for j := range d.n {
			if d.chosen[i][j] != d.chosen[j][i] {
				return false
			}
		}
	}
	return true
}

// Exhaustive for n ≤ 12: each glaze exactly k times first and k times second.
func TestDesignIsBalanced(t *testing.T) {
	for n := 2; n <= 12; n++ {
		for k := 1; k < n; k++ {
			d := open(n, k)
			d.choose()
			least, most := d.counts()
			require.Equal(t, []int{k, k}, []int{least, most}, "n %d k %d", n, k)
		}
	}
}

// With both orders the same, but for an odd k of an odd n, which no graph has
// (the degrees of a graph sum to an even number).
func TestDesignOfBothOrdersIsBalanced(t *testing.T) {
	for n := 2; n <= 12; n++ {
		for k := 1; k < n; k++ {
			if n%2 == 1 && k%2 == 1 {
				continue
			}
			d := open(n, k)
			d.chooseBoth()
			least, most := d.counts()
			require.Equal(t, []int{k, k}, []int{least, most}, "n %d k %d", n, k)
			require.True(t, d.bothOrders(), "n %d k %d", n, k)
		}
	}
}

// Exhaustive for n ≤ 12: a part that asks for more partners keeps all it has
// and is balanced again.
func TestDesignGrowsBalanced(t *testing.T) {
	for n := 2; n <= 12; n++ {
		for k := 1; k < n; k++ {
			for more := k; more < n; more++ {
				d := open(n, k)
				d.choose()
				g := d.grown(n, more)
				g.choose()
				least, most := g.counts()
				require.Equal(t, []int{more, more}, []int{least, most}, "n %d k %d → %d", n, k, more)
			}
		}
	}
}

// Exhaustive for n ≤ 12: a newcomer to a balanced part has its k partners both
// ways, and no older glaze is asked for more than one pair more, first or second.
func TestDesignTakesANewGlaze(t *testing.T) {
	for n := 2; n <= 11; n++ {
		for k := 1; k < n; k++ {
			d := open(n, k)
			d.choose()
			g := d.grown(n+1, k)
			g.choose()
			least, most := g.counts()
			require.Equal(t, k, least, "n %d k %d", n, k)
			require.LessOrEqual(t, most, k+1, "n %d k %d", n, k)
		}
	}
}

// With pairs ruled out at random the part takes only what is allowed, gives
// every glaze its k partners where the rules leave it that many, and is the
// same each time.
func TestDesignUnderRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 10).Draw(t, "n")
		k := rapid.IntRange(1, n-1).Draw(t, "k")
		d, again := open(n, k), open(n, k)
		for range rapid.IntRange(0, n*n/2).Draw(t, "rules") {
			i, j := rapid.IntRange(0, n-1).Draw(t, "i"), rapid.IntRange(0, n-1).Draw(t, "j")
			d.allowed[i][j], again.allowed[i][j] = false, false
		}
		d.choose()
		again.choose()
		require.Equal(t, d.chosen, again.chosen)
		for i := range n {
			out, in, mayOut, mayIn := 0, 0, 0, 0
			for j := range n {
				require.False(t, d.chosen[i][j] && !d.allowed[i][j])
				out, in = out+count01(d.chosen[i][j]), in+count01(d.chosen[j][i])
				mayOut, mayIn = mayOut+count01(d.allowed[i][j]), mayIn+count01(d.allowed[j][i])
			}
			require.GreaterOrEqual(t, out, min(k, mayOut))
			require.GreaterOrEqual(t, in, min(k, mayIn))
		}
	})
}

func count01(b bool) int {
	if b {
		return 1
	}
	return 0
}
