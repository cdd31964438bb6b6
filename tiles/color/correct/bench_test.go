package correct

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/color"
)

// The simulation is itself held against published figures, before anything is
// concluded from it.

// Lab of 1600 glossy chips under six lights, computed elsewhere from the same
// spectra: ../shared/reference/reflectances/munsell-gloss-matt.
func TestSpectraGiveTheDerivedLab(t *testing.T) {
	b := readBench(t)
	chips := across(t, published(t, "reflectances/munsell-gloss-matt/munsell_gloss_380-780_5nm.csv"))
	rows := readCSV(t, published(t, "reflectances/munsell-gloss-matt/munsell_gloss_derived_Lab.csv"))
	require.Len(t, rows, 1601)
	for _, r := range rows[1:] {
		for i, light := range []string{"D50", "D65", "A", "FL2", "FL11"} {
			got := b.observer.see(b.lights.of[light], chips.of[r[0]])
			want := [3]float64{number(t, r[1+3*i]), number(t, r[2+3*i]), number(t, r[3+3*i])}
			require.InDeltaSlice(t, want[:], []float64{got.L, got.A, got.B}, 0.05, "%s under %s", r[0], light)
		}
	}
}

// The 24-patch chart's measured spectra against the Lab published with them.
func TestChartSpectraGiveThePublishedLab(t *testing.T) {
	b := readBench(t)
	want := map[string]color.Lab{}
	for _, r := range readCSV(t, published(t, "colorchecker/colorchecker_xyY_Lab.csv"))[1:] {
		if r[0] == "BabelColor Average" {
			want[r[2]] = color.Lab{L: number(t, r[6]), A: number(t, r[7]), B: number(t, r[8])}
		}
	}
	require.Len(t, want, 24)
	for name, lab := range want {
		assert.Less(t, color.DE00(lab, b.truth(b.charts[0].of[name])), 0.2, name)
	}
}

// A plain 3×3 matrix fitted on the 190 training spectra, computed elsewhere:
// mean ΔE00 under D50 and under A, ../shared/reference/reflectances/rawtoaces-190.
func TestMakersMatricesAreAsGoodAsPublished(t *testing.T) {
	b := readBench(t)
	training := nested(t, published(t, "reflectances/rawtoaces-190/training_spectral.json"))
	for _, c := range b.cameras {
		want, ok := map[string][2]float64{
			"canon_powershot_s90": {1.96, 2.42}, "canon_eos_5d_mark_ii": {1.02, 1.68}, "nikon_d700": {1.27, 1.38},
		}[c.name]
		if !ok {
			continue
		}
		for i, under := range []string{"D50", "A"} {
			fit := b.calibrate(c, under, training)
			light := b.lights.of[under]
			balance := c.raw(light, white)
			sum := 0.0
			for _, s := range training {
				v := c.raw(light, s)
				r, g, bl := fit.matrix.Times(v[0]/balance[0], v[1]/balance[1], v[2]/balance[2])
				sum += color.DE00(color.FromLinear(r, g, bl).Lab(), b.observer.see(light, s))
			}
			t.Logf("%s under %s: %.2f, published %.2f", c.name, under, sum/float64(len(training)), want[i])
			assert.InDelta(t, want[i], sum/float64(len(training)), 0.05, "%s under %s", c.name, under)
		}
	}
}
