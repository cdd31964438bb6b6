package color

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseReadsWhatPeopleWrite(t *testing.T) {
	slate, short := FromSRGB(0x5a, 0x7f, 0x91), FromSRGB(0xaa, 0xbb, 0xcc)
	for text, want := range map[string]Lab{
		"#5a7f91":           slate,
		" 5A7F91 ":          slate,
		"#abc":              short,
		"lab(48 -8 -14)":    {48, -8, -14},
		"lab(48% -8 -14)":   {48, -8, -14},
		"LAB(48, −8, −14)":  {48, -8, -14},
		"48 -8 -14":         {48, -8, -14},
		"lab 48,-8,-14":     {48, -8, -14},
		"lab(50% 100% -8%)": {50, 125, -10},
	} {
		got, err := Parse(text)
		require.NoError(t, err, text)
		assert.InDelta(t, 0, DE00(want, got), 1e-9, text)
	}
}

func TestParseSaysWhatIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"rust over milk":  `"rust over milk" is not a color; write it as #5a7f91 or lab(48 -8 -14)`,
		"teal":            `"teal" is not a color; write it as #5a7f91 or lab(48 -8 -14)`,
		"":                `"" is not a color; write it as #5a7f91 or lab(48 -8 -14)`,
		"#12345":          `"#12345" is not a color; write it as #5a7f91 or lab(48 -8 -14)`,
		"lab(48 x -14)":   `"x" in "lab(48 x -14)" is not a number; write a color as lab(48 -8 -14)`,
		"lab(148 0 0)":    `"lab(148 0 0)" is no color: L* goes from 0 to 100, a* and b* from -200 to 200`,
		"lab(NaN 0 0)":    `"lab(NaN 0 0)" is no color: L* goes from 0 to 100, a* and b* from -200 to 200`,
		"lab(50 0 1e999)": `"1e999" in "lab(50 0 1e999)" is not a number; write a color as lab(48 -8 -14)`,
	} {
		_, err := Parse(text)
		assert.EqualError(t, err, want)
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"#5a7f91", "abc", "lab(48 -8 -14)", "lab(50% 1e2 -8%)", "((", "−", "lab(,,)"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if c, err := Parse(s); err == nil && !c.Real() {
			t.Fatalf("%q gave %v", s, c)
		}
	})
}
