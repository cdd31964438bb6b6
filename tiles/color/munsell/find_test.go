package munsell

import (
	"encoding/csv"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// reference opens a table of ../shared/reference beside the checkout; its
// figures are read where they are.
func reference(t testing.TB, path string) [][]string {
	t.Helper()
	dir, err := os.Getwd()
	require.NoError(t, err)
	for dir != filepath.Dir(dir) {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		}
		dir = filepath.Dir(dir)
	}
	f, err := os.Open(filepath.Join(dir, "../shared/reference", path))
	if err != nil {
		t.Skip("the reference tables are not beside this checkout")
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

func number(t testing.TB, s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}

// disputed are the two chips whose x the published editions give differently;
// ours are the figures that run on smoothly from their neighbors.
var disputed = map[string]bool{"10Y 4/2": true, "2.5R 9/2": true}

// Every chip of the renotation that was ever made, from the Munsell Color
// Science Laboratory's real.dat.
func TestEveryRealChipReturnsItself(t *testing.T) {
	rows := reference(t, "munsell/munsell_real.csv")
	require.Len(t, rows, 2734)
	for _, r := range rows {
		if disputed[r[0]+" "+r[1]+"/"+r[2]] {
			continue
		}
		hue, err := ParseHue(r[0])
		require.NoError(t, err)
		want := Notation{hue, number(t, r[1]), number(t, r[2])}
		got := Of(number(t, r[3]), number(t, r[4]), Y(want.Value))
		assert.InDelta(t, 0, apart(want.Hue, got.Hue), 1e-5, "%v", r)
		assert.InDelta(t, want.Value, got.Value, 1e-9, "%v", r)
		assert.InDelta(t, want.Chroma, got.Chroma, 1e-5, "%v", r)
	}
}

// The table's Y is relative to smoked magnesium oxide, 0.975 of the perfect
// white.
func TestValueAgreesWithTheTable(t *testing.T) {
	for _, r := range reference(t, "munsell/munsell_real.csv") {
		assert.InDelta(t, number(t, r[5])*0.975/100, Y(number(t, r[1])), 2e-4, "%v", r)
	}
}

func apart(h1, h2 float64) float64 {
	d := math.Mod(math.Abs(h1-h2), 100)
	return math.Min(d, 100-d)
}

// Darker than value 2 the table's outer chips are colors no eye can see, and
// its rings fold there.
func TestOfUndoesXYY(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for range 20000 {
		value := 0.4 + random.Float64()*9.5
		n := Notation{random.Float64() * 100, value, random.Float64() * math.Min(14, 3+5*value)}
		x, y, luminance := n.XYY()
		got := Of(x, y, luminance)
		require.InDelta(t, n.Value, got.Value, 1e-6, "%v", n)
		require.InDelta(t, n.Chroma, got.Chroma, 1e-3, "%v gave %v", n, got)
		if n.Chroma > 0.1 {
			require.InDelta(t, 0, apart(n.Hue, got.Hue), 1e-2, "%v gave %v", n, got)
		}
	}
}

func TestNotationIsWrittenAsMunsellDoes(t *testing.T) {
	assert.Equal(t, "5.0PB 4.0/6.0", Notation{75, 4, 6}.String())
	assert.Equal(t, "10.0RP 4.0/6.0", Notation{0, 4, 6}.String())
	assert.Equal(t, "N 5.0/", Notation{0, 5, 0}.String())
	_, err := ParseHue("5X")
	assert.EqualError(t, err, `"5X" is not a Munsell hue such as 5PB`)
}

func BenchmarkOf(b *testing.B) {
	for i := range b.N {
		Of(0.25+float64(i&15)/100, 0.33, 0.2)
	}
}
