package measure

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/mottle"
	"github.com/twodip/twodip/tiles/mark/simulate"
	"github.com/twodip/twodip/tiles/target"
)

// inShine is a photo of a tile on the mat with soft shine of a strength over it, its
// middle at the tile's upper corner; radius is of the picture's width.
func inShine(t *testing.T, glaze simulate.RGB, radius, strength float64) []byte {
	page, err := target.Mat(smallWall().Settings)
	require.NoError(t, err)
	s := simulate.Printed(page.Width, page.Height, simulate.White, page.Marks[:], 0)
	s.Beyond = simulate.RGB{0.2, 0.2, 0.2}
	s.Blocks = []simulate.Block{{X: page.Tile.X, Y: page.Tile.Y, W: page.Tile.W, H: page.Tile.H, Thick: 6, Face: simulate.Mottled(glaze, 4, 0.2, 1)}}
	const w, h = 800, 1100
	c := simulate.Camera{W: w, H: h, F: simulate.Equivalent(26, w, h)}
	c.Aim(s.Width, s.Height, 8, 30, 3, 0.96)
	l := simulate.Light{Across: 1.2, Blur: 0.8, Noise: 0.01}
	if strength > 0 {
		x, y, _ := c.See(page.Tile.X+page.Tile.W*0.3, page.Tile.Y+page.Tile.H*0.25, 6)
		l.Glare = []simulate.Glare{{X: x / w, Y: y / h, Radius: radius, Strength: strength}}
	}
	return simulate.JPEG(simulate.Photo(s, c, l, rand.New(rand.NewPCG(1, 1)), false), 92)
}

// A soft shine over most of a tile is said and widens the doubt to cover what it
// does; without one nothing is said, whatever the glaze.
func TestSoftShineIsSaid(t *testing.T) {
	for name, glaze := range map[string]simulate.RGB{"black": {0.02, 0.02, 0.02}, "rust": rust, "blue": simulate.SRGB(40, 70, 120), "grey": {0.2, 0.2, 0.2}} {
		clean, err := readPhoto(t, inShine(t, glaze, 0, 0), "3.jpg")
		require.NoError(t, err)
		without := clean.Readings[0]
		assert.Empty(t, without.Warning, name)
		for _, c := range []struct{ radius, strength float64 }{{0.08, 0.3}, {0.12, 0.15}, {0.12, 0.5}} {
			res, err := readPhoto(t, inShine(t, glaze, c.radius, c.strength), "3.jpg")
			if err != nil {
				continue // refused
			}
			r := res.Readings[0]
			off := color.DE00(color.Lab{L: r.L, A: r.A, B: r.B}, color.Lab{L: without.L, A: without.A, B: without.B})
			t.Logf("%s %v: off %.1f doubt %.1f (%.1f) kept %.2f %q", name, c, off, r.Doubt, without.Doubt, r.Kept, r.Warning)
			if c.strength < 0.5 && name != "grey" { // on a grey, a weak shine is like light that falls off
				assert.LessOrEqual(t, off, r.Doubt, "%s %v", name, c)
			}
			if name != "grey" {
				assert.Contains(t, r.Warning, "shine", "%s %v", name, c)
			}
		}
	}
}

// A reading goes up smoothly with the share of a zone that looks like glare: no two
// photos that differ by a hair are two colors.
func TestNoShareTurnsGlareIntoGlaze(t *testing.T) {
	last := 0.0
	for blocks := 0; blocks <= 40; blocks++ {
		m := mosaic{side: 1, w: 100, h: 1, light: make([][3]float32, 100), blown: make([]bool, 100), white: make([]bool, 100)}
		for i := range m.light {
			m.light[i] = [3]float32{0.06, 0.03, 0.02}
			if i < blocks {
				m.light[i] = [3]float32{0.6, 0.57, 0.56}
			}
		}
		var in []placed
		for i := range 100 {
			in = append(in, placed{float32(i) / 100, 0.5, int32(i)})
		}
		m.weigh(in, m.blown, &color.SRGBToXYZ)
		sum, weight := 0.0, 0.0
		for i := range in {
			sum, weight = sum+float64(m.weight[i])*float64(m.light[i][1]), weight+float64(m.weight[i])
		}
		if blocks > 0 && blocks <= 24 {
			assert.Less(t, sum/weight-last, 0.03, "%d of 100", blocks)
		}
		last = sum / weight
	}
}

// A glaze that pools from one end to the other keeps its color's shares; what shine
// adds is white.
func TestPoolingIsNoShine(t *testing.T) {
	cells := func(add func(x float64) color.XYZ) mottle.Area {
		a := mottle.Area{Width: 20}
		for i := range 400 {
			a.Cells = append(a.Cells, add(float64(i%20)/19))
		}
		return a
	}
	own := color.Lab{L: 30, A: 20, B: 15}.XYZ()
	pooled := cells(func(x float64) color.XYZ {
		k := 0.4 + 1.6*x
		return color.XYZ{X: own.X * k, Y: own.Y * k, Z: own.Z * k}
	})
	shining := cells(func(x float64) color.XYZ {
		return color.XYZ{X: own.X + 0.2*x*color.D50.X, Y: own.Y + 0.2*x, Z: own.Z + 0.2*x*color.D50.Z}
	})
	assert.Zero(t, softShine(color.Lab{L: 30, A: 20, B: 15}, pooled, false))
	assert.Greater(t, softShine(color.Lab{L: 45, A: 12, B: 9}, shining, false), 8.0)
	assert.Zero(t, softShine(color.Lab{}, mottle.Area{}, true))
}
