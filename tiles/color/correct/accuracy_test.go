package correct

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/twodip/twodip/tiles/color"
)

// chart photographs a chart: its patches as a shot gives them.
func (b *bench) chart(s *shot, spectraOf spectra) (out []Seen) {
	d50 := b.lights.of["D50"]
	for _, name := range spectraOf.names {
		lab := b.observer.see(d50, spectraOf.of[name])
		out = append(out, Seen{color.Patch{Name: name, Lab: lab, Neutral: lab.SeemsNeutral()}, s.take(spectraOf.of[name])})
	}
	return out
}

var daylight = []string{"D50", "D55", "D60", "D65", "D75"}

func (b *bench) errors(lights []string, shots, tiles int, seed uint64, correction func(chart []Seen) *Correction) (out []float64, covered float64) {
	random := rand.New(rand.NewPCG(seed, 1))
	d50 := b.lights.of["D50"]
	in := 0
	for i := range shots {
		c := b.cameras[i%len(b.cameras)]
		light := b.lights.of[lights[random.IntN(len(lights))]]
		s := b.careful(c, light, random)
		fix := correction(b.chart(s, b.charts[random.IntN(2)]))
		for range tiles {
			surface := b.surfaces[random.IntN(len(b.surfaces))]
			got := fix.XYZ(s.take(surface)).Lab()
			e := color.DE00(got, b.observer.see(d50, surface))
			out = append(out, e)
			if e <= fix.DoubtAt(got) {
				in++
			}
		}
	}
	slices.Sort(out)
	return out, float64(in) / float64(len(out))
}

func quantile(sorted []float64, q float64) float64 { return sorted[int(q*float64(len(sorted)-1))] }

func TestAccuracyReport(t *testing.T) {
	b := readBench(t)
	srgb := color.SRGBToXYZ
	pick := func(keep func(s Seen) bool) func([]Seen) *Correction {
		return func(chart []Seen) *Correction {
			var some []Seen
			for _, s := range chart {
				if keep(s) {
					some = append(some, s)
				}
			}
			c, err := Fit(some, srgb)
			if err != nil {
				t.Fatal(err)
			}
			return c
		}
	}
	fits := []struct {
		name string
		fit  func([]Seen) *Correction
	}{
		{"none", func([]Seen) *Correction { return None(srgb) }},
		{"grey card", pick(func(s Seen) bool { return s.Name == "neutral 5 (.70 D)" })},
		{"white, grey, black", pick(func(s Seen) bool {
			return s.Name == "neutral 5 (.70 D)" || s.Name == "white 9.5 (.05 D)" || s.Name == "black 2 (1.5 D)"
		})},
		{"24 patches", pick(func(s Seen) bool { return true })},
	}
	for _, f := range fits {
		for _, l := range []struct {
			name   string
			lights []string
		}{{"daylight", daylight}, {"any light", b.lights.names}} {
			e, covered := b.errors(l.lights, 200, 50, 7, f.fit)
			fmt.Printf("%-20s %-10s median %.2f p95 %.2f covered %.1f%%\n", f.name, l.name, quantile(e, .5), quantile(e, .95), 100*covered)
		}
	}
}
