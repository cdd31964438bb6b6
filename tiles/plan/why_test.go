package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

func said(lines []plan.Line) string {
	var b strings.Builder
	for _, l := range lines {
		b.WriteString(l.About + ": " + l.Says + "\n")
	}
	return b.String()
}

func TestWhyExplainsEveryTile(t *testing.T) {
	w := wish(6)
	w.Glazes = runnyThird(w.Glazes)
	w.Rules = []tiles.Rule{{First: "A", Second: "B", Do: "skip", Reason: "slides off", Line: 12}}
	w.Tiles = made(t, w).Tiles
	for _, tile := range w.Tiles {
		says := said(plan.WhyTile(w.Wall, tile))
		for _, about := range []string{"number: ", "load: ", "shelf: ", "place: ", "1st coat: bucket"} {
			require.Contains(t, says, about, "tile %d", tile.Number)
		}
		require.Equal(t, tile.Second != "", strings.Contains(says, "2nd coat: cup"), "tile %d", tile.Number)
		require.Equal(t, tile.Has("C") || tile.Has("F"), strings.Contains(says, "waste slab 10 mm"), "tile %d", tile.Number)
	}
	require.Contains(t, said(plan.Why(w.Wall, tiles.Pair{First: "A", Second: "B"})), "skip: slides off (wall.yaml:12)\nnumber: none: slides off")
	require.Contains(t, said(plan.Why(w.Wall, tiles.Pair{First: "C", Second: "F"})), "caution: both run")
}

func TestWhyAPairHasNoTile(t *testing.T) {
	w := wish(6)
	w.Part = tiles.Portion{Pairs: 2, Both: true}
	w.Tiles = made(t, w).Tiles
	require.Contains(t, said(plan.Why(w.Wall, tiles.Pair{First: "A", Second: "D"})), "none yet: part: asks for 2 partners")
	require.Contains(t, said(plan.Why(w.Wall, tiles.Pair{First: "A", Second: "A"})), "none: not asked for: diagonal: single")
	w.Glazes[0].Retired = true
	require.Contains(t, said(plan.Why(w.Wall, tiles.Pair{First: "A", Second: "A"})), "none: glaze A is retired")
}

func TestWhyATileIsOut(t *testing.T) {
	w := wish(3)
	w.Tiles = made(t, w).Tiles
	w.Tiles[1].Status, w.Tiles[1].Reason = tiles.Retired, "broken"
	require.Contains(t, said(plan.WhyTile(w.Wall, w.Tiles[1])), "retired: broken; set by hand in tiles/plan.csv")
	w.Glazes[2].Retired = true
	w.Tiles = made(t, w).Tiles
	require.Contains(t, said(plan.WhyTile(w.Wall, w.Tiles[2])), "retired: glaze C is retired; it was planned before")
}
