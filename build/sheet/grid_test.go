package sheet_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
)

// horizontals lists the lengths, mm, of all horizontal strokes of a page, as
// mupdf traces the PDF's own geometry.
func horizontals(t *testing.T, pdf []byte) []float64 {
	t.Helper()
	need(t, "mutool")
	trace := outside(t, "mutool", "trace", saved(t, pdf), "1")
	stroke := regexp.MustCompile(`<moveto x="([-0-9.]+)" y="([-0-9.]+)"/>\s*<lineto x="([-0-9.]+)" y="([-0-9.]+)"/>`)
	var lengths []float64
	for _, m := range stroke.FindAllStringSubmatch(trace, -1) {
		if m[2] != m[4] {
			continue
		}
		from, err := strconv.ParseFloat(m[1], 64)
		require.NoError(t, err)
		to, err := strconv.ParseFloat(m[3], 64)
		require.NoError(t, err)
		lengths = append(lengths, (to-from)*25.4/72)
	}
	return lengths
}

// closest is the length nearest to the one looked for.
func closest(lengths []float64, want float64) float64 {
	best := 0.0
	for _, l := range lengths {
		if abs(l-want) < abs(best-want) {
			best = l
		}
	}
	return best
}

func abs(v float64) float64 { return max(v, -v) }

func TestGridRulerIs100mm(t *testing.T) {
	lengths := horizontals(t, drawn(t, sheet.Grid, jobOf(wallOf(glazes))))
	require.InDelta(t, 100, closest(lengths, 100), 0.01)
}

func TestGridShowsEveryTileOnce(t *testing.T) {
	text := pdfText(t, drawn(t, sheet.Grid, jobOf(wallOf(glazes))))
	flat := strings.Join(strings.Fields(text), " ")
	for _, first := range glazes {
		require.Equal(t, 1, strings.Count(flat, "1st "+first.Code+" alone"))
		for _, second := range glazes {
			if first.Code != second.Code {
				require.Equal(t, 1, strings.Count(flat, "1st "+first.Code+" → 2nd "+second.Code), "%s %s", first.Code, second.Code)
			}
		}
	}
	require.Contains(t, flat, "Print at 100 %")
}

func TestGridSaysWhyAPlaceIsEmpty(t *testing.T) {
	w := wallOf(glazes[:3])
	w.Tiles[1].Status, w.Tiles[1].Reason = tiles.Skipped, "both run"
	w.Tiles = w.Tiles[:8]
	flat := strings.Join(strings.Fields(pdfText(t, drawn(t, sheet.Grid, jobOf(w)))), " ")
	require.Contains(t, flat, "1st QM → 2nd LR skipped: both run")
	require.Contains(t, flat, "1st HF alone no tile in the plan")
}

func TestGridPrintsOnlyPagesWithNewTiles(t *testing.T) {
	job := jobOf(wallOf(glazes))
	job.New = sheet.Numbers{144: true}
	pdf := drawn(t, sheet.Grid, job)
	require.Contains(t, outsideInfo(t, pdf), "Pages:           1\n")
}

func outsideInfo(t *testing.T, pdf []byte) string {
	t.Helper()
	need(t, "pdfinfo")
	return outside(t, "pdfinfo", saved(t, pdf))
}
