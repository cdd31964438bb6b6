package spectral

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
	b := ReadBench(t)
	chips := Across(t, Published(t, "reflectances/munsell-gloss-matt/munsell_gloss_380-780_5nm.csv"))
	rows := ReadCSV(t, Published(t, "reflectances/munsell-gloss-matt/munsell_gloss_derived_Lab.csv"))
	require.Len(t, rows, 1601)
	for _, r := range rows[1:] {
		for i, light := range []string{"D50", "D65", "A", "FL2", "FL11"} {
			got := b.Observer.See(b.Lights.Of[light], chips.Of[r[0]])
			want := [3]float64{Number(t, r[1+3*i]), Number(t, r[2+3*i]), Number(t, r[3+3*i])}
			require.InDeltaSlice(t, want[:], []float64{got.L, got.A, got.B}, 0.05, "%s under %s", r[0], light)
		}
	}
}

// Every light's chromaticity against the published one, which was computed
// elsewhere: ../shared/reference/cie. Of the LEDs only these are at hand there,
// not their spectra.
func TestLightsHaveThePublishedChromaticities(t *testing.T) {
	b := ReadBench(t)
	held := 0
	for _, r := range ReadCSV(t, Published(t, "cie/whitepoints_xy.csv"))[1:] {
		light, ok := b.Lights.Of[r[1]]
		if !ok || r[0] != "CIE 1931 2 Degree Standard Observer" {
			continue
		}
		x, y := b.Observer.Chromaticity(light)
		assert.InDelta(t, Number(t, r[2]), x, 1e-4, r[1])
		assert.InDelta(t, Number(t, r[3]), y, 1e-4, r[1])
		held++
	}
	assert.Equal(t, len(b.Lights.Names), held)
}

// The 24-patch chart's measured spectra against the Lab published with them.
func TestChartSpectraGiveThePublishedLab(t *testing.T) {
	b := ReadBench(t)
	want := map[string]color.Lab{}
	for _, r := range ReadCSV(t, Published(t, "colorchecker/colorchecker_xyY_Lab.csv"))[1:] {
		if r[0] == "BabelColor Average" {
			want[r[2]] = color.Lab{L: Number(t, r[6]), A: Number(t, r[7]), B: Number(t, r[8])}
		}
	}
	require.Len(t, want, 24)
	for name, lab := range want {
		assert.Less(t, color.DE00(lab, b.Truth(b.Charts[0].Of[name])), 0.2, name)
	}
}

// A plain 3×3 matrix fitted on the 190 training spectra, computed elsewhere:
// mean ΔE00 under D50 and under A, ../shared/reference/reflectances/rawtoaces-190.
func TestMakersMatricesAreAsGoodAsPublished(t *testing.T) {
	b := ReadBench(t)
	training := Nested(t, Published(t, "reflectances/rawtoaces-190/training_spectral.json"))
	for _, c := range b.Cameras {
		want, ok := map[string][2]float64{
			"canon_powershot_s90": {1.96, 2.42}, "canon_eos_5d_mark_ii": {1.02, 1.68}, "nikon_d700": {1.27, 1.38},
		}[c.Name]
		if !ok {
			continue
		}
		for i, under := range []string{"D50", "A"} {
			fit := b.Calibrate(c, under, training)
			light := b.Lights.Of[under]
			balance := c.Raw(light, White)
			sum := 0.0
			for _, s := range training {
				v := c.Raw(light, s)
				r, g, bl := fit.Matrix.Times(v[0]/balance[0], v[1]/balance[1], v[2]/balance[2])
				sum += color.DE00(color.FromLinear(r, g, bl).Lab(), b.Observer.See(light, s))
			}
			t.Logf("%s under %s: %.2f, published %.2f", c.Name, under, sum/float64(len(training)), want[i])
			assert.InDelta(t, want[i], sum/float64(len(training)), 0.05, "%s under %s", c.Name, under)
		}
	}
}
