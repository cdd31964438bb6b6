package chart

import (
	"encoding/xml"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/twodip/twodip/tiles/drift/control"
	"github.com/twodip/twodip/tiles/trace/evidence"
)

func drifting(n int) control.Chart {
	random := rand.New(rand.NewPCG(1, 1))
	var points []control.Point
	for i := range n {
		points = append(points, control.Point{Label: "load " + string(rune('1'+i%9)), Value: random.NormFloat64() * 0.6})
	}
	points[n-1].Value = 4.4
	return control.Individuals(points)
}

// charts is one of each kind, ordinary and awkward.
func charts() map[string]Drawing {
	return map[string]Drawing{
		"individuals": Individuals("ΔL* of re-tests against tile 7", "ΔL*", drifting(28), 0),
		"provisional": Individuals("Specific gravity of Kiln Moss", "SG", control.Individuals([]control.Point{
			{Label: "2026-01-05, batch 1", Value: 1.45}, {Label: "2026-01-19, batch 1", Value: 1.46}, {Label: "2026-02-02, batch 2", Value: 1.44},
			{Label: "2026-02-16, batch 2", Value: 1.45}, {Label: "2026-03-02, batch 3", Value: 1.47},
		}), 1.45),
		"flat": Individuals("Nothing moves", "ΔL*", control.Individuals([]control.Point{{Label: "load 1"}, {Label: "load 2"}}), 0),
		"none": Individuals("No points", "ΔL*", control.Individuals(nil), 0),
		"rates": Rates("Crawling: 13 of 171 pieces", []Row{
			{"batch 7 of Kiln Moss as second", evidence.Table{WithFaults: 9, With: 11, WithoutFaults: 4, Without: 160}},
			{"1st " + strings.Repeat("Very Long Glaze Name ", 5) + "→ 2nd <script>", evidence.Table{WithFaults: 3, With: 3, WithoutFaults: 10, Without: 168}},
		}),
	}
}

// Every drawing is well-formed, stays on its plane, and says itself in words.
func TestDrawingsStayOnTheirPlane(t *testing.T) {
	for name, d := range charts() {
		dec := xml.NewDecoder(strings.NewReader(d.SVG()))
		for {
			_, err := dec.Token()
			if err == io.EOF {
				break
			}
			require.NoError(t, err, name)
		}
		assert.NotEmpty(t, d.Words, name)
		onPlane(t, name, d)
		if folder := os.Getenv("TWODIP_LOOK"); folder != "" {
			page := `<body style="background:#303030;color:#eee;font-family:sans-serif;margin:20px">` + d.SVG()
			require.NoError(t, os.WriteFile(filepath.Join(folder, name+".html"), []byte(page), 0o644))
		}
	}
}

func onPlane(t require.TestingT, name string, d Drawing) {
	for _, m := range d.Marks {
		for _, v := range []float64{m.X, m.Y, m.X2, m.Y2, m.Size} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%s: %+v", name, m)
		}
		require.True(t, m.X >= 0 && m.X <= d.Width && m.X2 >= 0 && m.X2 <= d.Width, "%s: %+v", name, m)
		require.True(t, m.Y >= 0 && m.Y <= d.Height && m.Y2 >= 0 && m.Y2 <= d.Height, "%s: %+v", name, m)
	}
}

// Whatever is measured, the chart holds.
func TestIndividualsOfAnything(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		values := rapid.SliceOfN(rapid.Float64Range(-1e4, 1e4), 0, 60).Draw(r, "values")
		var points []control.Point
		for _, v := range values {
			points = append(points, control.Point{Label: rapid.StringN(0, 20, -1).Draw(r, "label"), Value: v})
		}
		target := rapid.SampledFrom([]float64{0, 1.45, -300}).Draw(r, "target")
		onPlane(r, "any", Individuals("any", "any", control.Individuals(points), target))
	})
}

func TestTicksAreRound(t *testing.T) {
	values, decimals := ticks(-1.3, 2.2, 5)
	assert.Equal(t, []float64{-1, 0, 1, 2}, values)
	assert.Equal(t, 0, decimals)
	values, decimals = ticks(1.414, 1.494, 5)
	assert.Len(t, values, 4)
	assert.Equal(t, 2, decimals)
	assert.Equal(t, "−1.5", figure(-1.5, 1))
	assert.Equal(t, "0.0", figure(-0.01, 1))
}
