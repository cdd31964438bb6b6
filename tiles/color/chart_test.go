package color

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sheetSRGB is the 8-bit sRGB that the maker of a 24-patch chart prints beside
// each patch on its data sheet (from memory).
var sheetSRGB = [24][3]uint8{
	{115, 82, 68}, {194, 150, 130}, {98, 122, 157}, {87, 108, 67}, {133, 128, 177}, {103, 189, 170},
	{214, 126, 44}, {80, 91, 166}, {193, 90, 99}, {94, 60, 108}, {157, 188, 64}, {224, 163, 46},
	{56, 61, 150}, {70, 148, 73}, {175, 54, 60}, {231, 199, 31}, {187, 86, 149}, {8, 133, 161},
	{243, 243, 242}, {200, 200, 200}, {160, 160, 160}, {122, 122, 121}, {85, 85, 85}, {52, 52, 52},
}

// The sheet's sRGB against the sheet's Lab (D50). They were not computed from
// one measurement: editions of the Lab alone differ by 0.85 ΔE00 on average.
// Lab relative to D65, which a D50 sheet must not be compared with, is farther
// off.
func TestSheetSRGBIsTheSheetsLab(t *testing.T) {
	f, err := os.Open(shared(t, "reference/colorchecker/colorchecker_xyY_Lab.csv"))
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	n, sum, sumD65 := 0, 0.0, 0.0
	for _, r := range rows {
		if r[0] != "ColorChecker24 - Before November 2014" {
			continue
		}
		var v [3]float64
		for i := range v {
			v[i], err = strconv.ParseFloat(r[6+i], 64)
			require.NoError(t, err)
		}
		s := sheetSRGB[n]
		sheet := Lab{v[0], v[1], v[2]}
		d := DE00(sheet, FromSRGB(s[0], s[1], s[2]))
		l, a, b := colorful.Color{R: float64(s[0]) / 255, G: float64(s[1]) / 255, B: float64(s[2]) / 255}.Lab()
		sumD65 += DE00(sheet, Lab{100 * l, 100 * a, 100 * b})
		t.Logf("%-22s %.2f", r[2], d)
		assert.Less(t, d, 4.5, r[2])
		sum += d
		n++
	}
	require.Equal(t, 24, n)
	t.Logf("mean %.2f; relative to D65 %.2f", sum/24, sumD65/24)
	assert.Less(t, sum/24, 1.7)
	assert.Less(t, sum, sumD65)
}
