package color

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestDE00GivesThePublishedPairs(t *testing.T) {
	for i, p := range publishedPairs {
		got := DE00(p.a, p.b)
		assert.InDelta(t, p.want, got, 5e-5, "pair %d", i+1)
	}
}

// anyLab draws a color a surface or a screen can have.
func anyLab(t *rapid.T, name string) Lab {
	axis := rapid.Float64Range(-128, 128)
	return Lab{
		rapid.Float64Range(0, 100).Draw(t, name+" L"),
		axis.Draw(t, name+" a"),
		axis.Draw(t, name+" b"),
	}
}

func TestDE00IsSymmetricAndZeroOnlyAtHome(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyLab(t, "first"), anyLab(t, "second")
		if opposite(a, b) {
			t.Skip("exactly opposite hues, where the formula jumps")
		}
		forth, back := DE00(a, b), DE00(b, a)
		if math.Abs(forth-back) > 1e-12*math.Max(1, forth) {
			t.Fatalf("%v → %v is %v, back %v", a, b, forth, back)
		}
		if d := DE00(a, a); d != 0 {
			t.Fatalf("%v is %v from itself", a, d)
		}
	})
}

func opposite(a, b Lab) bool {
	d := math.Abs(a.Hue() - b.Hue())
	return math.Abs(d-180) < 1e-6
}

func TestDE00AgreesWithGoColorful(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	worst := 0.0
	for range 20000 {
		a, b := randomLab(random), randomLab(random)
		if opposite(a, b) {
			continue
		}
		worst = math.Max(worst, math.Abs(DE00(a, b)-colorfulDE00(a, b)))
	}
	assert.Less(t, worst, 1e-10)
}

func randomLab(r *rand.Rand) Lab {
	return Lab{r.Float64() * 100, r.Float64()*200 - 100, r.Float64()*200 - 100}
}

// colorfulDE00 brings our scale to go-colorful's, which is a hundredth.
func colorfulDE00(a, b Lab) float64 {
	p := colorful.LabWhiteRef(a.L/100, a.A/100, a.B/100, colorful.D65)
	q := colorful.LabWhiteRef(b.L/100, b.A/100, b.B/100, colorful.D65)
	return 100 * p.DistanceCIEDE2000(q)
}

var sink float64

func benchmarkPairs() []Lab {
	random := rand.New(rand.NewPCG(3, 4))
	out := make([]Lab, 1024)
	for i := range out {
		out[i] = randomLab(random)
	}
	return out
}

func BenchmarkDE00(b *testing.B) {
	cs := benchmarkPairs()
	for i := range b.N {
		sink += DE00(cs[i&1023], cs[(i+1)&1023])
	}
}

func BenchmarkDE00GoColorful(b *testing.B) {
	cs := make([]colorful.Color, 1024)
	for i, c := range benchmarkPairs() {
		cs[i] = colorful.Lab(c.L/100, c.A/100, c.B/100)
	}
	for i := range b.N {
		sink += cs[i&1023].DistanceCIEDE2000(cs[(i+1)&1023])
	}
}
