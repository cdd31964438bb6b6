package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// The drawing on labels and sheets, the words of the dip run and those of
// plan.Why follow the coats of tiles.Shape, on every layout and many sizes.
func TestDrawingAndWordsFollowTheCoats(t *testing.T) {
	for _, layout := range []tiles.Layout{tiles.LayoutWhole, tiles.LayoutEnds, tiles.LayoutSides} {
		for _, size := range [][2]float64{{40, 60}, {60, 90}, {100, 150}, {76.2, 50.8}} {
			for _, bare := range []float64{0, 12, 25} {
				for _, shares := range [][2]float64{{2. / 3, 2. / 3}, {0.55, 0.5}, {0.9, 0.4}, {1, 0.5}} {
					s := tiles.Shape{Width: size[0], Height: size[1], Thickness: 6, Bare: bare, Layout: layout}
					s.FirstDip, s.SecondDip = shares[0]*s.Glazed(), shares[1]*s.Glazed()
					for _, p := range []tiles.Pair{{First: "A"}, {First: "A", Second: "B"}, {First: "A", Second: "A"}} {
						drawnAsDipped(t, s, p)
						saidAsDipped(t, s, p)
					}
				}
			}
		}
	}
}

func drawnAsDipped(t *testing.T, s tiles.Shape, p tiles.Pair) {
	a := area{7, 11, 9, 14}
	drawn, coats := drawnCoats(a, p, s), s.Coats(p)
	require.Len(t, drawn, len(coats))
	for i, c := range coats {
		for _, pair := range [][2]float64{
			{(drawn[i].x - a.x) / a.w, c.On.X / s.Width}, {drawn[i].w / a.w, c.On.W / s.Width},
			{(drawn[i].y - a.y) / a.h, c.On.Y / s.Height}, {drawn[i].h / a.h, c.On.H / s.Height},
		} {
			require.InDelta(t, pair[1], pair[0], 1e-9, "%+v %v coat %d", s, p, i+1)
		}
	}
}

func saidAsDipped(t *testing.T, shape tiles.Shape, p tiles.Pair) {
	settings := tiles.Settings{Tile: shape, Kiln: tiles.Kiln{Gap: 12, Seed: 1, Shelves: []tiles.Shelf{{Name: "one", Shape: "rectangle", Width: 900, Depth: 900}}}}
	settings.Dip = tiles.Dip{Seconds: 3, Stir: 5, Coats: 2}
	w := tiles.Wall{Settings: settings, Glazes: []tiles.Glaze{{Code: "A"}, {Code: "B"}}, Tiles: []tiles.Tile{{Number: 1, Pair: p, Status: tiles.Planned}}}
	w.Tiles = plan.Place(w.Settings, w.Glazes, w.Tiles, false).Tiles
	var why []string
	for _, l := range plan.Why(w, p) {
		why = append(why, l.Says)
	}
	runs := plan.DipRuns(w, plan.Loads(w)...)
	for i, c := range shape.Coats(p) {
		words := plan.CoatWay(settings, c)
		require.Contains(t, words, fmt.Sprintf("%s in first, %g mm deep", edgeWords[c.In], math.Round(2*c.Depth)/2), "%+v", shape)
		require.Equal(t, c.Bare, strings.Contains(words, "wax"), "%+v: %s", shape, words)
		require.Contains(t, strings.Join(why, "\n"), words)
		p := paper{job: Job{Wall: w}}
		require.True(t, slices.ContainsFunc(p.dipWays([]plan.Run{runs.First, runs.Second}[i]), func(w dipWay) bool { return w.says == words && w.coat == c }))
	}
}

var edgeWords = map[tiles.Edge]string{
	tiles.EdgeTop: "the top", tiles.EdgeBottom: "the bottom",
	tiles.EdgeLeft: "the left side (as you look at the front)", tiles.EdgeRight: "the right side (as you look at the front)",
}
