package color

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ICC.1:2022, annex E.3 prints the matrix from D65 to the profile white.
func TestBradfordIsThePublishedOne(t *testing.T) {
	want := Matrix{
		{1.0479, 0.0229, -0.0502},
		{0.0296, 0.9904, -0.0171},
		{-0.0092, 0.0151, 0.7519},
	}
	got := Adaptation(WhiteXYZ(0.3127, 0.3290), D50)
	for r := range 3 {
		assert.InDeltaSlice(t, want[r][:], got[r][:], 6e-5)
	}
}

// The colorants of the sRGB profile as the International Color Consortium
// publishes it (from memory), s15Fixed16.
func TestSRGBColorantsAreTheProfiles(t *testing.T) {
	want := Matrix{
		{0.4360, 0.3851, 0.1431},
		{0.2225, 0.7169, 0.0606},
		{0.0139, 0.0971, 0.7141},
	}
	for r := range 3 {
		assert.InDeltaSlice(t, want[r][:], SRGBToXYZ[r][:], 1e-4)
	}
}

func TestInverseUndoes(t *testing.T) {
	inverse := SRGBToXYZ.Inverse()
	one := inverse.After(&SRGBToXYZ)
	for r := range 3 {
		for c := range 3 {
			want := 0.0
			if r == c {
				want = 1
			}
			assert.InDelta(t, want, one[r][c], 1e-14)
		}
	}
}

// White points by summing illuminant × color matching function every 5 nm,
// against CIE 15's chromaticities; the tables are read from ../shared.
func TestWhitePointsComeOutOfTheSpectra(t *testing.T) {
	observer := columns(t, shared(t, "reference/cie/cie1931_2deg_5nm.csv"))
	lights := columns(t, shared(t, "reference/cie/illuminants_A_B_C_D_E_5nm.csv"))
	for name, want := range map[string][2]float64{
		"A": {0.44758, 0.40745}, "C": {0.31006, 0.31616}, "D50": {0.34570, 0.35850}, "D65": {0.31270, 0.32900},
	} {
		var x, y, z float64
		for nm, power := range lights[name] {
			x += power * observer["xbar"][nm]
			y += power * observer["ybar"][nm]
			z += power * observer["zbar"][nm]
		}
		assert.InDelta(t, want[0], x/(x+y+z), 5e-5, name)
		assert.InDelta(t, want[1], y/(x+y+z), 5e-5, name)
	}
}

// columns reads a table whose first column is a wavelength in nm.
func columns(t *testing.T, path string) map[string]map[int]float64 {
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	out := map[string]map[int]float64{}
	for i, name := range rows[0] {
		out[name] = map[int]float64{}
		for _, r := range rows[1:] {
			nm, err := strconv.Atoi(r[0])
			require.NoError(t, err)
			out[name][nm], err = strconv.ParseFloat(r[i], 64)
			require.NoError(t, err)
		}
	}
	return out
}
