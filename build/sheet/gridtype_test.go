package sheet_test

import (
	"fmt"
	"image"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
)

// A letter of 1:120 is 25 mm tall where the wall is read from 3 m (sign rule,
// common practice, found written), measured here on the rendered page.
func TestCodesAreAsTallAsTheDistanceAsks(t *testing.T) {
	need(t, "pdftoppm")
	for distance, want := range map[float64]float64{3000: 25, 1800: 15} {
		w := wallOf([]tiles.Glaze{{Code: "H", Name: "i"}, {Code: "I", Name: "i"}})
		w.Photo.Board = tiles.Board{PitchX: 80, PitchY: 140}
		w.Read = distance
		const perMM = 10
		out := filepath.Join(t.TempDir(), "page")
		outside(t, "pdftoppm", "-gray", "-r", fmt.Sprint(25.4*perMM), "-singlefile", saved(t, drawn(t, sheet.Grid, jobOf(w))), out)
		page := picture(t, out+".pgm")
		require.InDelta(t, want, tallestStroke(page, image.Rect(95*perMM, 16*perMM, 165*perMM, 70*perMM))/perMM, 0.3)
	}
}

// tallestStroke is the longest run of black down a column of pixels.
func tallestStroke(page *image.Gray, in image.Rectangle) float64 {
	longest := 0
	for x := in.Min.X; x < in.Max.X; x++ {
		run := 0
		for y := in.Min.Y; y < in.Max.Y; y++ {
			if page.GrayAt(x, y).Y > 128 {
				run = 0
				continue
			}
			run++
			longest = max(longest, run)
		}
	}
	return float64(longest)
}

func TestGridSaysWhereLettersCannotBeReadFrom(t *testing.T) {
	job := jobOf(wallOf(glazes))
	job.Wall.Read = 12000
	var said []string
	job.Say = func(s string) { said = append(said, s) }
	drawn(t, sheet.Grid, job)
	require.Len(t, said, 1)
	require.Contains(t, said[0], "not from 12.0 m")
}
