package correct

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// paperSpots are looks at the paper of a page as the mat leaves it blank, in light
// that falls off, with 0.3 % noise.
func paperSpots(r *rand.Rand, falls func(x, y float64) float64, laid func(x, y float64) float64) (out []Spot) {
	way, slope := 2*math.Pi*r.Float64(), 0.6*r.Float64()
	for i := range 6 {
		for j := range 8 {
			x, y := 0.08+0.84*float64(i)/5, 0.06+0.88*float64(j)/7
			if x > 0.3 && x < 0.7 && y > 0.25 && y < 0.6 { // the tile lies here
				continue
			}
			light := 0.5 * (1 + slope*((x-0.5)*math.Cos(way)+(y-0.5)*math.Sin(way))) * falls(x, y)
			s := Spot{X: x, Y: y}
			for k, tint := range [3]float64{1, 0.97, 0.92} {
				s.RGB[k] = (light*tint + laid(x, y)) * (1 + 0.003*r.NormFloat64())
			}
			out = append(out, s)
		}
	}
	return out
}

// A lamp's reflection is told from a shadow, and neither is seen in light that falls
// off evenly.
func TestABrightSpotIsToldFromAShadow(t *testing.T) {
	none, all := func(float64, float64) float64 { return 0 }, func(float64, float64) float64 { return 1 }
	const n = 60
	found := map[string]int{}
	var apart float64
	for i := range n {
		r := rand.New(rand.NewPCG(uint64(i), 17))
		if LightFrom(paperSpots(r, all, none)).Glare() != nil {
			found["even"]++
		}
		e := edge{way: 2 * math.Pi * r.Float64(), at: 0.25 * (2*r.Float64() - 1), soft: 0.01 + 0.1*r.Float64()}
		depth := 0.2 + 0.5*r.Float64()
		if LightFrom(paperSpots(r, func(x, y float64) float64 { return 1 - depth*e.inside(x, y) }, none)).Glare() != nil {
			found["shadow"]++
		}
		wide := 0.1 + 0.15*r.Float64()
		g := spot{0.25 + 0.5*r.Float64(), 0.25 + 0.5*r.Float64(), wide, wide * 3 / 4}
		strength := 0.1 + 0.4*r.Float64()
		laid := func(x, y float64) float64 { return strength * g.at(x, y) }
		light := LightFrom(paperSpots(r, all, laid))
		if light.Glare() == nil {
			continue
		}
		found["glare"]++
		// A dark glaze in the middle of the page: what it shows, and what is left
		// of it without the glare, over what it is.
		dark := RGB{0.05 + laid(0.5, 0.45), 0.05 + laid(0.5, 0.45), 0.05 + laid(0.5, 0.45)}
		with, without := light.Level(0.5, 0.45, dark)[1], light.Glare().Level(0.5, 0.45, dark)[1]
		if math.Abs(without-0.05) <= math.Abs(with-0.05)+0.01 {
			apart++
		}
	}
	t.Logf("of %d: %v; nearer the truth without the glare, or as near: %.0f", n, found, apart)
	assert.Zero(t, found["even"])
	assert.LessOrEqual(t, found["shadow"], n/20)
	assert.GreaterOrEqual(t, found["glare"], n*8/10)
	assert.GreaterOrEqual(t, apart, 0.8*float64(found["glare"]))
}
