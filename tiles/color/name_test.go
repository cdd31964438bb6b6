package color

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"github.com/twodip/twodip/tiles/color/munsell"
)

// A chart of 24 patches whose makers gave each its ISCC–NBS name: McCamy,
// Marcus and Davidson, "A color-rendition chart", J. Appl. Photogr. Eng. 2
// (1976) 95–99, table I: name and CIE xyY under illuminant C, 2°.
var rendition = []struct {
	name    string
	x, y, Y float64
}{
	{"moderate brown", 0.4002, 0.3504, 0.1005},
	{"light reddish brown", 0.3773, 0.3446, 0.3582},
	{"moderate blue", 0.2470, 0.2514, 0.1933},
	{"moderate olive green", 0.3372, 0.4220, 0.1329},
	{"light violet", 0.2651, 0.2400, 0.2427},
	{"light bluish green", 0.2608, 0.3430, 0.4306},
	{"strong orange", 0.5060, 0.4070, 0.3005},
	{"strong purplish blue", 0.2110, 0.1750, 0.1200},
	{"moderate red", 0.4533, 0.3058, 0.1977},
	{"deep purple", 0.2845, 0.2020, 0.0656},
	{"strong yellow green", 0.3800, 0.4887, 0.4429},
	{"strong orange yellow", 0.4729, 0.4375, 0.4306},
	{"vivid purplish blue", 0.1866, 0.1285, 0.0611},
	{"strong yellowish green", 0.3046, 0.4782, 0.2339},
	{"strong red", 0.5385, 0.3129, 0.1200},
	{"vivid yellow", 0.4480, 0.4703, 0.5910},
	{"strong reddish purple", 0.3635, 0.2325, 0.1977},
	{"strong greenish blue", 0.1958, 0.2519, 0.1977},
	{"white", 0.3101, 0.3163, 0.9001},
	{"light gray", 0.3101, 0.3163, 0.5910},
	{"light gray", 0.3101, 0.3163, 0.3620}, // "light-medium gray": on the border of two names
	{"medium gray", 0.3101, 0.3163, 0.1977},
	{"dark gray", 0.3101, 0.3163, 0.0900},
	{"black", 0.3101, 0.3163, 0.0313},
}

func TestNamesOfAPublishedChart(t *testing.T) {
	fromC := Adaptation(illuminantC, D50)
	same := 0
	for _, p := range rendition {
		X, Y, Z := fromC.Times(p.x/p.y*p.Y, p.Y, (1-p.x-p.y)/p.y*p.Y)
		c := XYZ{X, Y, Z}.Lab()
		got := Name(c, munsell.Fine)
		if got == p.name {
			same++
			continue
		}
		t.Logf("%s is named %s (%v)", p.name, got, c.Munsell())
		assert.Contains(t, Names(c, 8, munsell.Fine), p.name, "a name that differs is a neighbor")
	}
	assert.GreaterOrEqual(t, same, 19)
}

func TestEveryColorHasOneNameUnderItsParents(t *testing.T) {
	parents := map[string][2]string{}
	for b := munsell.Block(1); b <= munsell.Blocks; b++ {
		parents[b.Name(3)] = [2]string{b.Name(1), b.Name(2)}
	}
	rapid.Check(t, func(t *rapid.T) {
		c := anyLab(t, "color")
		up, ok := parents[Name(c, 3)]
		if !ok || up != [2]string{Name(c, 1), Name(c, 2)} {
			t.Fatalf("%v is %q, %q, %q", c, Name(c, 1), Name(c, 2), Name(c, 3))
		}
	})
}

func TestNamesInsideTheDoubt(t *testing.T) {
	slate := Lab{48, -8, -14}
	assert.Equal(t, []string{"grayish blue"}, Names(slate, 0, 3))
	assert.Equal(t, "grayish blue", Names(slate, 3, 3)[0], "its own name comes first")
	assert.Greater(t, len(Names(slate, 9, 3)), 1)
}

func TestDescribeSaysNoMoreThanIsKnown(t *testing.T) {
	for _, c := range []struct {
		color Lab
		doubt float64
		want  string
	}{
		{Lab{48, -8, -14}, 0, "grayish blue, middle lightness"},
		{Lab{48, -8, -14}, 9, "grayish blue or moderate greenish blue, middle lightness"},
		{Lab{27, 40, 26}, 0, "dark red"},
		{Lab{27, 40, 26}, 9, "red or reddish brown, dark"},
		{Lab{95, 1, 5}, 9, "white, near white or yellowish pink, very light"},
		{Lab{3, 0, 0}, 2, "black"},
		{Lab{50, 4, 6}, 12, "near gray, brown or red, middle lightness"},
		{Lab{100, 0, 0}, 0, "white"},
	} {
		assert.Equal(t, c.want, Describe(c.color, c.doubt))
	}
}

func TestDescribeNeverSaysMoreThanThreeNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		said := Describe(anyLab(t, "color"), rapid.Float64Range(0, 30).Draw(t, "doubt"))
		names := 1 + strings.Count(said, " or ") + max(0, strings.Count(said, ", ")-1)
		if names > 3 {
			t.Fatal(said)
		}
	})
}

func BenchmarkName(b *testing.B) {
	for range b.N {
		Name(Lab{48, -8, -14}, 3)
	}
}

func BenchmarkDescribe(b *testing.B) {
	for range b.N {
		Describe(Lab{48, -8, -14}, 2)
	}
}
