package plan_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// unevenness is the most that two loads differ in how often a glaze is first,
// or second, in them.
func unevenness(w tiles.Wall) int {
	worst := 0
	loads := plan.Loads(w)
	for _, g := range w.Glazes {
		for _, second := range []bool{false, true} {
			least, most := math.MaxInt, 0
			for _, l := range loads {
				c := 0
				for _, tile := range l.Tiles() {
					if code := tile.Pair.First; !second && code == g.Code || second && tile.Second == g.Code {
						c++
					}
				}
				least, most = min(least, c), max(most, c)
			}
			worst = max(worst, most-least)
		}
	}
	return worst
}

// Each glaze first and second as evenly as possible in every load. A difference
// of one is the least that a remainder leaves. Two may be needed: 7 glazes in
// 2 loads would each be second 3 times a load, and no 7 pairs of both orders
// do that (7 × 3 is odd).
func TestPlaceBlocksAreEven(t *testing.T) {
	even, walls := 0, 0
	for n := 3; n <= 24; n++ {
		for shelves := 1; shelves <= 3; shelves++ {
			s := kiln()
			s.Kiln.Shelves = s.Kiln.Shelves[:shelves]
			w, _ := placed(t, s, glazesOf(n))
			u := unevenness(w)
			require.LessOrEqual(t, u, 2, "n %d", n)
			if walls++; u <= 1 {
				even++
			}
		}
	}
	t.Logf("%d of %d walls differ by one at most", even, walls)
	require.GreaterOrEqual(t, even, walls*85/100)
}
