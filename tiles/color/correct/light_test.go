package correct

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// lamp is invented light from a lamp at one side: the inverse square of the
// distance, cos⁴ fall-off of a lens added. Source of both laws: photometry's
// inverse-square law and the lens's natural vignetting, handbook knowledge.
func lamp(x, y float64) float64 {
	dx, dy, dz := x+0.8, y-0.2, 2.0
	square := dx*dx + dy*dy + dz*dz
	r := math.Hypot(x-0.5, y-0.5) * 0.3
	return 4 / square * math.Pow(math.Cos(math.Atan(r)), 4)
}

// around is spots of a white border: n a side, or the middles alone for 1.
func around(n int, noise float64, random *rand.Rand) (out []Spot) {
	for i := range n {
		t := (float64(i) + 0.5) / float64(n)
		for _, p := range [...][2]float64{{t, 0.05}, {t, 0.95}, {0.05, t}, {0.95, t}} {
			v := 0.7 * lamp(p[0], p[1]) * (1 + noise*random.NormFloat64())
			out = append(out, Spot{X: p[0], Y: p[1], RGB: RGB{v, 0.9 * v, 0.8 * v}})
		}
	}
	return out
}

// unevenness is the worst place's light over the best's, inside the border.
func unevenness(l Light) float64 {
	low, high := math.Inf(1), 0.0
	for x := 0.1; x < 0.95; x += 0.1 {
		for y := 0.1; y < 0.95; y += 0.1 {
			v := l.Level(x, y, RGB{1, lamp(x, y), 1})[1]
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	return high / low
}

func TestLightFromABorder(t *testing.T) {
	random := rand.New(rand.NewPCG(21, 22))
	t.Logf("as lit %.2f, by 4 spots %.2f, by 16 %.2f", unevenness(Light{}), unevenness(LightFrom(around(1, 0.005, random))), unevenness(LightFrom(around(4, 0.005, random))))
	assert.Greater(t, unevenness(Light{}), 1.4, "the lamp is worth taking out")
	assert.Less(t, unevenness(LightFrom(around(1, 0.005, random))), 1.13, "from four spots")
	assert.Less(t, unevenness(LightFrom(around(4, 0.005, random))), 1.04, "from sixteen")
}

func TestLightTakesTheLampsColorOutToo(t *testing.T) {
	var spots []Spot
	for _, x := range []float64{0, 0.3, 0.6, 1} {
		spots = append(spots, Spot{X: x, RGB: RGB{1 - 0.2*x, 1, 1 + 0.1*x}}, Spot{X: x, Y: 1, RGB: RGB{1 - 0.2*x, 1, 1 + 0.1*x}})
	}
	got := LightFrom(spots).Level(0.9, 0.5, RGB{1 - 0.18, 1, 1.09})
	for k := range got {
		assert.InDelta(t, got[1], got[k]/map[int]float64{0: 0.899, 1: 1, 2: 1.047}[k], 0.01, "channel %d", k)
	}
}

func TestAShadowOnTheBorderIsLeftOut(t *testing.T) {
	random := rand.New(rand.NewPCG(23, 24))
	spots := around(4, 0.005, random)
	for k := range spots[5].RGB {
		spots[5].RGB[k] *= 0.5
	}
	assert.Less(t, unevenness(LightFrom(spots)), 1.05)
}

func TestLightFromTooLittle(t *testing.T) {
	for _, spots := range [][]Spot{nil, {{RGB: RGB{1, 1, 1}}}, {{RGB: RGB{1, 1, 1}}, {X: 1, Y: 1, RGB: RGB{2, 2, 2}}}, {{}, {}, {}, {}}} {
		assert.Equal(t, Light{}, LightFrom(spots))
	}
	// Spots on a line tell nothing across it.
	line := LightFrom([]Spot{{Y: 0.5, RGB: RGB{1, 1, 1}}, {X: 0.5, Y: 0.5, RGB: RGB{1.1, 1.1, 1.1}}, {X: 1, Y: 0.5, RGB: RGB{1.2, 1.2, 1.2}}})
	require.InDelta(t, line.At(0.5, 0)[1], line.At(0.5, 1)[1], 1e-6)
	assert.InDelta(t, 1.2, line.At(1, 0.5)[1]/line.At(0, 0.5)[1], 0.01)
}

// The edge of a shadow across the border is found and followed, and how uneven
// the light is tells it from a lamp that falls off.
func TestAShadowsEdgeIsFollowed(t *testing.T) {
	random := rand.New(rand.NewPCG(25, 26))
	even := LightFrom(around(8, 0.003, random))
	assert.Less(t, even.Uneven(), 0.012, "a lamp at one side")
	shadowed := func(x, y float64) float64 {
		share := 1.0
		if 0.8*x+0.6*y > 0.8 {
			share = 0.6
		}
		return share
	}
	spots := around(8, 0.003, random)
	for i, s := range spots {
		for k := range s.RGB {
			spots[i].RGB[k] *= shadowed(s.X, s.Y)
		}
	}
	light := LightFrom(spots)
	assert.Greater(t, light.Uneven(), 0.024)
	assert.Less(t, light.left, light.Uneven()/3)
	lit, dark := light.At(0.3, 0.3), light.At(0.8, 0.8)
	got := dark[1] / lit[1]
	want := 0.6 * lamp(0.8, 0.8) / lamp(0.3, 0.3)
	assert.InDelta(t, want, got, 0.04, "from one side of the edge to the other, inside the border")
}

// One spot in the dark (a finger, a stain) is no shadow: it is left out as before.
func TestAStainIsNoShadow(t *testing.T) {
	spots := around(6, 0.003, rand.New(rand.NewPCG(27, 28)))
	for k := range spots[5].RGB {
		spots[5].RGB[k] *= 0.5
	}
	assert.Less(t, LightFrom(spots).Uneven(), 0.012)
}
