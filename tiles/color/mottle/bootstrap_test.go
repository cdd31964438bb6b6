package mottle

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles/color"
)

// Areas of an invented breaking glaze, whose color in the long run is known:
// the stated doubt covers about 95 % of how far each area strays from it.
func TestDoubtCoversTheLongRun(t *testing.T) {
	for _, size := range []int{2, 5, 9} {
		random := rand.New(rand.NewPCG(uint64(size), 6))
		const draws = 120
		areas := make([]Area, draws)
		var all []color.XYZ
		for i := range areas {
			areas[i] = breaking(texture(random, size), 0.5, 0.3)
			all = append(all, areas[i].Cells...)
		}
		truth, covered, total := color.Mean(all).Lab(), 0, 0.0
		for _, a := range areas {
			doubt := a.Doubt()
			total += doubt
			if color.DE00(truth, a.Mean()) <= doubt {
				covered++
			}
		}
		t.Logf("patches of %d cells: mean doubt ± %.2f covers %.0f %%", size, total/draws, 100*float64(covered)/draws)
		assert.InDelta(t, 0.93, float64(covered)/draws, 0.06, "patches of %d cells", size)
	}
}

func TestBlocksGrowWithTheMottle(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 8))
	fine, coarse := breaking(texture(random, 2), 0.5, 0.3), breaking(texture(random, 9), 0.5, 0.3)
	assert.Less(t, fine.block(), coarse.block())
	assert.Greater(t, coarse.block(), 9, "at least as large as a patch")
}

func BenchmarkDoubt(b *testing.B) {
	a := breaking(texture(rand.New(rand.NewPCG(8, 9)), 5), 0.5, 0.3)
	for range b.N {
		a.Doubt()
	}
}

func BenchmarkParts(b *testing.B) {
	a := breaking(texture(rand.New(rand.NewPCG(8, 9)), 5), 0.5, 0.3)
	for range b.N {
		a.Parts()
	}
}
