package correct

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/spectral"
)

// The report simulates careful photos and says how far the corrected colors
// are from the truth, in ΔE00.
//
// A photo: one of ten cameras with measured sensitivities; a CIE light; the
// chart and the tiles each lit within ±1 % (standard deviation); white balance
// off by 4 % a channel; 0.3 % flare; exposure of white 78 % ± 12 %; the maker's
// matrix for lamplight and daylight mixed by warmth; a contrast curve; clipped
// and encoded as sRGB. Tiles: glossy and matt reflectances up to C* 60. The
// truth: the same reflectances under D50, 2°. Spectra: ../shared/reference,
// each folder with its source. One camera there is left out: its layered
// sensor is like no phone's.
//
// The report fails where a target is missed. For a grey card and for 24 patches
// the targets are the design's; the others keep what has been reached.
func TestAccuracyReport(t *testing.T) {
	b := spectral.ReadBench(t)
	shots := 150
	if os.Getenv("TWODIP_LONG") == "1" {
		shots = 2000
	}
	var table strings.Builder
	fmt.Fprintf(&table, "\n%-34s %-14s %7s %6s %8s %9s\n", "reference in the photo", "light", "median", "95 %", "covered", "± stated")
	for _, c := range accuracyCases(b) {
		var all outcome
		for _, light := range c.lights {
			got := measure(t, b, light.lights, c.see, shots, 7)
			fmt.Fprintf(&table, "%-34s %-14s %7.2f %6.2f %7.1f%% %9.1f\n", c.name, light.name,
				got.quantile(0.5), got.quantile(0.95), 100*got.covered(), got.stated/float64(len(got.misses)))
			all.join(got)
			if light.median > 0 {
				assert.LessOrEqual(t, got.quantile(0.5), light.median, "median, %s, %s", c.name, light.name)
				assert.LessOrEqual(t, got.quantile(0.95), light.p95, "95 %%, %s, %s", c.name, light.name)
			}
		}
		// A grey card cannot tell good light from bad and states what bad light
		// needs: only over all photos is its doubt a 95 % one.
		assert.GreaterOrEqual(t, all.covered(), 0.93, c.name)
		if c.chart {
			assert.LessOrEqual(t, all.covered(), 0.99, c.name)
		}
	}
	fmt.Print(table.String())
}

// accuracyCase is a reference, the lights it is seen under, and the targets.
type accuracyCase struct {
	name   string
	chart  bool
	lights []lighting
	see    reference
}

// lighting is a set of lights and the most the errors may be; 0 = no target.
type lighting struct {
	name        string
	lights      []string
	median, p95 float64
}

// reference makes the patches a shot sees.
type reference func(s *spectral.Shot) []Seen

func accuracyCases(b *spectral.Bench) []accuracyCase {
	daylight := []string{"D50", "D55", "D60", "D65", "D75"}
	both := func(median, p95, anyMedian, anyP95 float64) []lighting {
		return []lighting{{"daylight", daylight, median, p95}, {"any light", b.Lights.Names, anyMedian, anyP95}}
	}
	everything := func(int, Seen) bool { return true }
	only := func(names ...string) func(int, Seen) bool {
		return func(_ int, s Seen) bool { return slices.Contains(names, s.Name) }
	}
	return []accuracyCase{
		{"nothing", false, both(0, 0, 0, 0), func(*spectral.Shot) []Seen { return nil }},
		{"grey card", false, both(3.3, 7.5, 3.3, 7.5), chart(b, only("neutral 5 (.70 D)"))},
		{"white, grey and black", false, both(2.4, 6.6, 2.4, 6.6), chart(b, only("white 9.5 (.05 D)", "neutral 5 (.70 D)", "black 2 (1.5 D)"))},
		{"6 patches, 3 of them grey", true, both(1.8, 5.0, 1.8, 5.0), chart(b, only("red", "green", "blue", "white 9.5 (.05 D)", "neutral 5 (.70 D)", "black 2 (1.5 D)"))},
		{"12 patches, every other one", true, both(0, 0, 0, 0), chart(b, func(i int, _ Seen) bool { return i%2 == 0 })},
		{"24 patches", true, both(0.9, 2.2, 1.3, 4.0), chart(b, everything)},
		{"24 patches, glare on two", true, both(0.9, 3.0, 1.3, 5.0), glare(chart(b, everything))},
		{"8 control tiles known to ± 1", true, both(0, 0, 0, 0), controls(b, 8)},
		{"4 control tiles, paper and ink", true, both(1.7, 4.5, 2.0, 5.5), printed(controls(b, 4))},
	}
}

// chart photographs one of the charts, or some of its patches.
func chart(b *spectral.Bench, keep func(int, Seen) bool) reference {
	return func(s *spectral.Shot) (out []Seen) {
		chart := b.Charts[s.Random.IntN(len(b.Charts))]
		for i, name := range chart.Names {
			lab := b.Truth(chart.Of[name])
			seen := Seen{color.Patch{Name: name, Lab: lab, Neutral: lab.SeemsNeutral()}, s.Take(chart.Of[name])}
			if keep(i, seen) {
				out = append(out, seen)
			}
		}
		return out
	}
}

// glare lays a lamp's reflection over two patches.
func glare(see reference) reference {
	return func(s *spectral.Shot) []Seen {
		seen := see(s)
		for range 2 {
			p := &seen[s.Random.IntN(len(seen))]
			for k := range p.RGB {
				p.RGB[k] = min(1, p.RGB[k]+0.15)
			}
		}
		return seen
	}
}

// controls photographs some of the wall's tiles, whose color is known from an
// earlier, better photo.
func controls(b *spectral.Bench, n int) reference {
	return func(s *spectral.Shot) (out []Seen) {
		for i := range n {
			surface := b.Surfaces[s.Random.IntN(len(b.Surfaces))]
			lab := b.Truth(surface)
			lab.L += 0.5 * s.Random.NormFloat64()
			lab.A += 0.5 * s.Random.NormFloat64()
			lab.B += 0.5 * s.Random.NormFloat64()
			out = append(out, Seen{color.Patch{Name: fmt.Sprint(i), Lab: lab}, s.Take(surface)})
		}
		return out
	}
}

// printed adds the white paper and the black ink of a board's marks, whose
// colors are as good as guessed.
func printed(see reference) reference {
	return func(s *spectral.Shot) []Seen {
		return append(see(s),
			Seen{color.Patch{Name: "paper", Lab: color.Lab{L: 94}}, s.Take(spectral.Paper(s.Random))},
			Seen{color.Patch{Name: "ink", Lab: color.Lab{L: 22}}, s.Take(spectral.Ink(s.Random))})
	}
}

// outcome is how a set of photos came out.
type outcome struct {
	misses []float64 // ΔE00 from the truth, a tile each
	inside int       // within the stated doubt
	stated float64   // the doubts' sum
}

func (o *outcome) join(p outcome) {
	o.misses = append(o.misses, p.misses...)
	o.inside += p.inside
	o.stated += p.stated
}

func (o *outcome) covered() float64 { return float64(o.inside) / float64(len(o.misses)) }

func (o *outcome) quantile(q float64) float64 {
	slices.SortFunc(o.misses, cmp.Compare[float64])
	return o.misses[int(q*float64(len(o.misses)-1))]
}

// measure takes photos under the lights and measures tiles on each.
func measure(t *testing.T, b *spectral.Bench, lights []string, see reference, shots int, seed uint64) (out outcome) {
	const tilesEach = 40
	random := rand.New(rand.NewPCG(seed, 1))
	for i := range shots {
		light := b.Lights.Of[lights[i%len(lights)]]
		s := b.Careful(b.Cameras[random.IntN(len(b.Cameras))], light, random)
		fix := None(color.SRGBToXYZ)
		if seen := see(s); len(seen) > 0 {
			var err error
			fix, err = Fit(seen, color.SRGBToXYZ)
			require.NoError(t, err)
		}
		for range tilesEach {
			surface := b.Surfaces[random.IntN(len(b.Surfaces))]
			got := fix.XYZ(s.Take(surface)).Lab()
			miss, doubt := color.DE00(got, b.Truth(surface)), fix.DoubtAt(got)
			out.misses = append(out.misses, miss)
			out.stated += doubt
			if miss <= doubt {
				out.inside++
			}
		}
	}
	return out
}
