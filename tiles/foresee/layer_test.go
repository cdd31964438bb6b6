package foresee

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles/color"
)

// A layer on a ground, worked elsewhere: K, S, ground, thickness and the
// reflectance, from the tests of the program painty (T. Lindemeier, GitHub,
// modules/core/test/src/kubelka_munk_test.cpp). The layer is given to over as
// it is given a coat: by what it sends back on black and on some other ground.
func TestLayerOnGroundAsWorkedElsewhere(t *testing.T) {
	for _, c := range []struct{ k, s, ground, want float64 }{
		{0.2, 0.124, 0.65, 0.541596},
		{0.1, 0.658, 0.2, 0.343822},
		{0.22, 0.123, 0.2146, 0.206651},
	} {
		for _, clay := range []float64{0.3, 0.6, 0.9} {
			got := over(layerOf(c.k, c.s, 0.5, 0), layerOf(c.k, c.s, 0.5, clay), clay, c.ground)
			assert.InDelta(t, c.want, got, 1e-5, "K %v S %v on %v, measured on %v", c.k, c.s, c.ground, clay)
		}
	}
}

// layerOf is the reflectance of a layer by the hyperbolic solution.
func layerOf(k, s, thick, ground float64) float64 {
	var g stuff
	var below spectrum
	g.k[0], g.s[0], below[0] = k, s, ground
	for i := 1; i < bands; i++ {
		g.k[i], g.s[i] = 1, 1
	}
	return g.coat(thick, below)[0]
}

// Published K and S of twelve pigments in red, green and blue, per unit of
// thickness: Curtis, Anderson, Seims, Fleischer and Salesin, Computer-Generated
// Watercolor, SIGGRAPH 97, figure 5 (figures from memory, found the same in
// open programs). On any ground, and on one another, the closed form with two
// measurements says what the hyperbolic solution says with K and S.
var pigments = [][2][3]float64{
	{{0.22, 1.47, 0.57}, {0.05, 0.003, 0.03}},
	{{0.46, 1.07, 1.50}, {1.28, 0.38, 0.21}},
	{{0.10, 0.36, 3.45}, {0.97, 0.65, 0.007}},
	{{1.62, 0.61, 1.64}, {0.01, 0.012, 0.003}},
	{{1.52, 0.32, 0.25}, {0.06, 0.26, 0.40}},
	{{0.74, 1.54, 2.10}, {0.09, 0.09, 0.004}},
	{{0.14, 1.08, 1.68}, {0.77, 0.015, 0.018}},
	{{0.13, 0.81, 3.45}, {0.005, 0.009, 0.007}},
	{{0.06, 0.21, 1.78}, {0.50, 0.88, 0.009}},
	{{1.55, 0.47, 0.63}, {0.01, 0.05, 0.035}},
	{{0.86, 0.86, 0.06}, {0.005, 0.005, 0.09}},
	{{0.08, 0.11, 0.07}, {1.25, 0.42, 1.43}},
}

func TestLayerOnLayerOfPublishedPigments(t *testing.T) {
	for _, upper := range pigments {
		for _, lower := range pigments {
			for c := range 3 {
				const clay = 0.7
				ground := layerOf(lower[0][c], lower[1][c], 1, clay)
				black, single := layerOf(upper[0][c], upper[1][c], 1, 0), layerOf(upper[0][c], upper[1][c], 1, clay)
				assert.InDelta(t, layerOf(upper[0][c], upper[1][c], 1, ground), over(black, single, clay, ground), 1e-9)
			}
		}
	}
}

func TestACoatThatCoversIsItselfAnywhere(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 1000 {
		any := func() light { return light{within(r.Float64()), within(r.Float64()), within(r.Float64())} }
		single, clay, ground := any(), any(), any()
		assert.InDeltaSlice(t, single[:], ptr(lay(single, clay, ground, 1)), 1e-12, "on any ground")
		assert.InDeltaSlice(t, single[:], ptr(lay(single, clay, clay, r.Float64())), 1e-12, "on the clay it was measured on")
	}
}

func ptr(v light) []float64 { return v[:] }

// The ROMM primaries' white is D50, and a glaze's color comes back.
func TestLightAndBack(t *testing.T) {
	white := light{1, 1, 1}.lab()
	assert.InDelta(t, 0, square(white, color.Lab{L: 100}), 1e-12)
	for _, c := range []color.Lab{{L: 50}, {L: 30, A: 40, B: 25}, {L: 80, A: -10, B: 60}, {L: 25, A: 10, B: -40}} {
		assert.InDelta(t, 0, square(c, lightOf(c).lab()), 1e-12)
	}
}
