package target

import (
	"math/bits"
	"testing"

	"github.com/stretchr/testify/require"
)

// table makes the codes of the marks: candidates from a counting mixer with
// fixed constants, each kept when it is lively enough to stand out from
// natural texture and far from every turn of itself and of those kept before.
func table(want, distance int) []Bits {
	var kept []Bits
	for n := uint64(1); len(kept) < want; n++ {
		if c := Bits(mix(n) >> 28); lively(c) && far(c, kept, distance) {
			kept = append(kept, c)
		}
	}
	return kept
}

// mix is the finalizer of splitmix64 (Steele, Lea and Flood 2014), from memory.
func mix(n uint64) uint64 {
	z := n * 0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// lively asks for about as many white cells as black, and for many edges.
func lively(c Bits) bool {
	white := bits.OnesCount64(uint64(c))
	edges := 0
	for y := range Side {
		for x := range Side {
			if x > 0 && c.White(x, y) != c.White(x-1, y) {
				edges++
			}
			if y > 0 && c.White(x, y) != c.White(x, y-1) {
				edges++
			}
		}
	}
	return white >= 15 && white <= 21 && edges >= 26
}

func far(c Bits, kept []Bits, distance int) bool {
	turned := c
	for range 3 {
		turned = turned.Turn()
		if c.Distance(turned) < distance {
			return false
		}
	}
	for _, k := range kept {
		if d, _ := k.Nearest(c); d < distance {
			return false
		}
	}
	return true
}

func TestCodesAreTheGeneratedOnes(t *testing.T) {
	if testing.Short() {
		t.Skip("the search takes some seconds")
	}
	require.Equal(t, table(Count, apart), codes[:])
}

func TestCodesAreFarApart(t *testing.T) {
	for i, c := range codes {
		require.True(t, far(c, codes[:i], apart), "mark %d", i)
	}
}

func TestReadMendsAndTurns(t *testing.T) {
	for id := range codes {
		seen := codes[id] ^ 1<<3 ^ 1<<20
		for turns := range 4 {
			gotID, gotTurns, wrong, ok := Read(seen, 2)
			require.True(t, ok)
			require.Equal(t, []int{id, turns, 2}, []int{gotID, gotTurns, wrong})
			seen = seen.Turn()
		}
	}
	_, _, _, ok := Read(codes[4]^0b111, 2)
	require.False(t, ok, "three wrong cells, two allowed")
}
