package color

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// colorjs.io 0.7.1 (npm, MIT): figures made once, see testdata/colorjs.mjs.
func TestSRGBAgreesWithColorJS(t *testing.T) {
	text, err := os.ReadFile("testdata/colorjs.csv")
	require.NoError(t, err)
	assert.Equal(t, 216, agreeWithColorJS(t, text))
}

// The same, live and finer, where colorjs.io is at hand.
func TestSRGBAgreesWithColorJSLive(t *testing.T) {
	text, err := exec.Command(tool(t, "node"), "testdata/colorjs.mjs", nodeModules(t, "colorjs.io"), "18").Output()
	require.NoError(t, err)
	assert.Equal(t, 18*18*18, agreeWithColorJS(t, text))
}

// nodeModules is the folder above the one that TWODIP_NODE_MODULES names, if
// the module from npm is in it.
func nodeModules(t *testing.T, module string) string {
	t.Helper()
	dir := os.Getenv("TWODIP_NODE_MODULES")
	if _, err := os.Stat(filepath.Join(dir, module)); dir == "" || err != nil {
		require.NotEqual(t, "1", os.Getenv("TWODIP_ALL"), "%s is missing", module)
		t.Skip(module + " (npm) is not in the folder that TWODIP_NODE_MODULES names")
	}
	return filepath.Dir(dir)
}

func agreeWithColorJS(t *testing.T, text []byte) int {
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	require.NoError(t, err)
	before := Lab{}
	for _, row := range rows[1:] {
		var v [7]float64
		for i := range v {
			v[i], err = strconv.ParseFloat(row[i], 64)
			require.NoError(t, err)
		}
		c := FromSRGB(uint8(v[0]), uint8(v[1]), uint8(v[2]))
		near(t, Lab{v[3], v[4], v[5]}, c, 1e-9)
		if c.Chroma() > 1e-6 && before.Chroma() > 1e-6 { // a grey's hue is rounding
			require.InDelta(t, v[6], DE00(before, c), 1e-9, "%v", row)
		}
		before = c
	}
	return len(rows) - 1
}

func near(t *testing.T, want, got Lab, most float64) {
	t.Helper()
	require.InDelta(t, want.L, got.L, most, "L* of %v", want)
	require.InDelta(t, want.A, got.A, most, "a* of %v", want)
	require.InDelta(t, want.B, got.B, most, "b* of %v", want)
}

// LittleCMS rounds its profile's colorants to s15Fixed16 and uses ICC.1's
// four-digit D50, hence the tolerance.
func TestSRGBAgreesWithLittleCMS(t *testing.T) {
	transicc := tool(t, "transicc")
	random := rand.New(rand.NewPCG(7, 8))
	var in strings.Builder
	var colors []Lab
	for range 2000 {
		r, g, b := uint8(random.UintN(256)), uint8(random.UintN(256)), uint8(random.UintN(256))
		fmt.Fprintf(&in, "%d\n%d\n%d\n", r, g, b)
		colors = append(colors, FromSRGB(r, g, b))
	}
	cmd := exec.Command(transicc, "-v0", "-t1", "-i*sRGB", "-o*Lab4")
	cmd.Stdin = strings.NewReader(in.String())
	out, err := cmd.Output()
	require.NoError(t, err)
	var got []Lab
	for line := range strings.Lines(string(out)) {
		var c Lab
		if n, _ := fmt.Sscan(line, &c.L, &c.A, &c.B); n == 3 {
			got = append(got, c)
		}
	}
	require.Len(t, got, len(colors))
	for i, c := range colors {
		near(t, got[i], c, 0.012)
	}
}

func TestGreyAxisIsGrey(t *testing.T) {
	for v := range 256 {
		c := FromSRGB(uint8(v), uint8(v), uint8(v))
		assert.Less(t, c.Chroma(), 1e-6, "%d", v)
	}
	white := FromSRGB(255, 255, 255)
	assert.InDelta(t, 100, white.L, 1e-9)
}

// The curve is held against IEC 61966-2-1:1999, 4.2, and Encoded against its
// inverse; XYZ in D65 against go-colorful, whose primaries are right to 3e-13. Its
// Lab is not compared, being relative to D65.
func TestLinearLightAgreesWithTheStandard(t *testing.T) {
	for v := range 256 {
		coded := float64(v) / 255
		want := coded / 12.92
		if coded > 0.04045 {
			want = math.Pow((coded+0.055)/1.055, 2.4)
		}
		assert.InDelta(t, want, linear8[v], 1e-12)
		assert.InDelta(t, coded, Encoded(linear8[v]), 1e-9)
	}
	toD65 := Adaptation(D50, WhiteXYZ(0.3127, 0.3290))
	for _, c := range []colorful.Color{{R: 1}, {G: 1}, {B: 1}, {R: 0.2, G: 0.5, B: 0.7}} {
		r, g, b := c.LinearRgb()
		d50 := FromLinear(r, g, b)
		x, y, z := toD65.Times(d50.X, d50.Y, d50.Z)
		wx, wy, wz := c.Xyz()
		assert.InDelta(t, 0, math.Abs(x-wx)+math.Abs(y-wy)+math.Abs(z-wz), 5e-4)
	}
}

func BenchmarkLab(b *testing.B) {
	for i := range b.N {
		sink += FromSRGB(uint8(i), uint8(i>>8), uint8(i>>4)).L
	}
}

func BenchmarkLabGoColorful(b *testing.B) {
	for i := range b.N {
		c := colorful.Color{R: float64(uint8(i)) / 255, G: float64(uint8(i>>8)) / 255, B: float64(uint8(i>>4)) / 255}
		l, _, _ := c.Lab()
		sink += l
	}
}
