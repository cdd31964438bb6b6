package correct

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/spectral"
)

// invented is a chart of invented colors, seen through a gamma, a warm cast
// and a little crosstalk between the channels.
func invented(n int) (out []Seen) {
	random := rand.New(rand.NewPCG(31, 32))
	for i := range n {
		c := color.Lab{L: 20 + 70*random.Float64(), A: 50*random.Float64() - 25, B: 50*random.Float64() - 25}
		if i%4 == 0 {
			c.A, c.B = 0, 0
		}
		out = append(out, Seen{color.Patch{Name: string(rune('a' + i)), Lab: c, Neutral: i%4 == 0}, photographed(c)})
	}
	return out
}

func photographed(c color.Lab) RGB {
	r, g, b := c.XYZ().LinearSRGB()
	r, g, b = 0.9*r+0.1*g, 0.05*r+0.9*g+0.05*b, 0.1*g+0.9*b
	bend := func(v float64) float64 { return math.Pow(math.Max(v, 0), 1.2) }
	return RGB{0.9 * bend(r), 0.8 * bend(g), 0.6 * bend(b)}
}

func fitted(t *testing.T, seen []Seen) *Correction {
	t.Helper()
	c, err := Fit(seen, color.SRGBToXYZ)
	require.NoError(t, err)
	return c
}

func TestNoneIsTheProfile(t *testing.T) {
	c := None(color.SRGBToXYZ)
	assert.Equal(t, Camera, c.Kind())
	assert.Equal(t, "none", c.String())
	want := color.FromLinear(0.2, 0.3, 0.4)
	assert.InDelta(t, 0, color.DE00(want.Lab(), c.XYZ(RGB{0.2, 0.3, 0.4}).Lab()), 1e-9)
}

// A grey card scales linear light: twice the card's light is twice its Y.
func TestGreyCardScales(t *testing.T) {
	card := color.Lab{L: 50}
	c := fitted(t, []Seen{{color.Patch{Lab: card, Neutral: true}, RGB{0.1, 0.2, 0.15}}})
	assert.Equal(t, Grey, c.Kind())
	assert.Equal(t, "grey card", c.String())
	assert.InDelta(t, 0, color.DE00(card, c.XYZ(RGB{0.1, 0.2, 0.15}).Lab()), 1e-9)
	assert.InDelta(t, 2*card.XYZ().Y, c.XYZ(RGB{0.2, 0.4, 0.3}).Y, 1e-9)
}

func TestGreysGoThroughThemselves(t *testing.T) {
	var seen []Seen
	for _, l := range []float64{95, 65, 50, 20} {
		c := color.Lab{L: l}
		seen = append(seen, Seen{color.Patch{Lab: c, Neutral: true}, photographed(c)})
	}
	c := fitted(t, seen)
	assert.Equal(t, "4 greys", c.String())
	for _, s := range seen {
		assert.InDelta(t, 0, color.DE00(s.Lab, c.XYZ(s.RGB).Lab()), 1e-6)
	}
}

func TestChartBringsColorsBack(t *testing.T) {
	c := fitted(t, invented(24))
	assert.Equal(t, Chart, c.Kind())
	assert.Equal(t, "24 patches", c.String())
	assert.Empty(t, c.Struck())
	for _, want := range []color.Lab{{L: 48, A: -8, B: -14}, {L: 35, A: 18, B: 22}, {L: 80, A: 2, B: 10}} {
		off := color.DE00(want, c.XYZ(photographed(want)).Lab())
		assert.Less(t, off, 0.6, "%v", want)
		assert.Greater(t, color.DE00(want, None(color.SRGBToXYZ).XYZ(photographed(want)).Lab()), 5.0)
		assert.Less(t, off, c.DoubtAt(want))
	}
}

// Brighter or darker light over chart and tile alike changes nothing but the
// tone curve's place.
func TestTheSameEachTime(t *testing.T) {
	one, two := fitted(t, invented(24)), fitted(t, invented(24))
	assert.Equal(t, one.XYZ(RGB{0.2, 0.3, 0.4}), two.XYZ(RGB{0.2, 0.3, 0.4}))
	assert.Equal(t, one.DoubtAt(color.Lab{L: 40}), two.DoubtAt(color.Lab{L: 40}))
}

func TestGlareIsStruck(t *testing.T) {
	for _, at := range []int{0, 3, 4} { // a grey, a color, another grey
		seen := invented(24)
		for k := range seen[at].RGB {
			seen[at].RGB[k] += 0.2
		}
		c := fitted(t, seen)
		assert.Equal(t, []string{seen[at].Name}, c.Struck())
		assert.Equal(t, "23 patches", c.String())
	}
}

func TestAPatchNextToKnownOnesIsTrustedMore(t *testing.T) {
	b := spectral.ReadBench(t)
	s := b.Careful(b.Cameras[0], b.Lights.Of["FL2"], rand.New(rand.NewPCG(33, 34)))
	c := fitted(t, chart(b, func(int, Seen) bool { return true })(s))
	assert.Less(t, c.DoubtAt(color.Lab{L: 60}), c.DoubtAt(color.Lab{L: 45, A: 60, B: -60}))
}

func TestFewPatches(t *testing.T) {
	_, err := Fit(nil, color.SRGBToXYZ)
	assert.EqualError(t, err, "none of the reference's patches can be used: each is missing, black or burnt out in the photo")
	_, err = Fit([]Seen{{color.Patch{Lab: color.Lab{L: 50}}, RGB{}}, {color.Patch{Lab: color.Lab{L: 95}}, RGB{1, 1, 1}}}, color.SRGBToXYZ)
	assert.Error(t, err, "black and burnt out")
	for n := 1; n <= 8; n++ {
		c := fitted(t, invented(n + 1)[1:])
		got := c.XYZ(photographed(color.Lab{L: 50, A: 5, B: 8})).Lab()
		assert.Less(t, color.DE00(color.Lab{L: 50, A: 5, B: 8}, got), c.DoubtAt(got)+1, "%d patches: %v", n, c)
	}
}

// Whatever a photo shows, a correction gives a color.
func FuzzFit(f *testing.F) {
	f.Add(0.1, 0.2, 0.3, 50.0, 1.0, 2.0)
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(-1.0, 2.0, math.Inf(1), 500.0, -500.0, math.NaN())
	f.Fuzz(func(t *testing.T, r, g, b, l, a, bb float64) {
		seen := append(invented(9), Seen{color.Patch{Lab: color.Lab{L: l, A: a, B: bb}, Neutral: true}, RGB{r, g, b}})
		c, err := Fit(seen, color.SRGBToXYZ)
		if err != nil {
			return
		}
		got := c.XYZ(RGB{0.2, 0.3, 0.4})
		if math.IsNaN(got.X+got.Y+got.Z) || math.IsNaN(c.DoubtAt(got.Lab())) {
			t.Fatalf("%v with doubt %v", got, c.DoubtAt(got.Lab()))
		}
	})
}

func BenchmarkFit24(b *testing.B) {
	seen := invented(24)
	for range b.N {
		if _, err := Fit(seen, color.SRGBToXYZ); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkXYZ(b *testing.B) {
	c, err := Fit(invented(24), color.SRGBToXYZ)
	if err != nil {
		b.Fatal(err)
	}
	for range b.N {
		c.XYZ(RGB{0.2, 0.3, 0.4})
	}
}
