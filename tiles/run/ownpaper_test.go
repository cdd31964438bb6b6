package run

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/measure"
)

// A chart on the mat tells the paper's color, once there is something that stands
// on the paper and as long as nobody has written it down.
func TestTheMatsOwnPaperIsAdvised(t *testing.T) {
	results := map[string]measure.Result{
		"1.jpg": {Paper: &color.Lab{L: 92, A: 0.4, B: -3}}, "2.jpg": {Paper: &color.Lab{L: 93, A: 0.6, B: -4}}, "3.jpg": {Paper: &color.Lab{L: 99, A: 0.5, B: 9}}, "4.jpg": {},
	}
	w := tiles.Wall{Readings: []tiles.Reading{{Tile: 1, Correction: "24 patches"}}}
	require.Empty(t, advise(w, results))
	w.Readings = append(w.Readings, tiles.Reading{Tile: 2, Correction: "white paper"})
	require.Equal(t, []string{"the chart in 3 photos shows what color the mat's paper is: write paper: [93.0, 0.5, -3.0] under photo: in wall.yaml, and what is read by the paper alone is nearer the truth, as long as you print on that paper"}, advise(w, results))
	require.Empty(t, advise(w, nil))
	w.Photo.Paper = []float64{93, 0.5, -3}
	require.Empty(t, advise(w, results))
}
