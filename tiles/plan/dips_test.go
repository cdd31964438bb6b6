package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// shaded is a wall of five glazes of every shade, two of them strong colorants.
func shaded(t *testing.T) tiles.Wall {
	s := kiln()
	s.Dip = tiles.Dip{Seconds: 3, Handling: 27, Opening: 4, Stir: 5, Dry: 10}
	gs := []tiles.Glaze{
		{Code: "CO", Shade: "dark", Traits: []tiles.Trait{tiles.Colorant}},
		{Code: "DK", Shade: "dark"},
		{Code: "WH", Shade: "light"},
		{Code: "MI", Shade: "mid"},
		{Code: "CU", Shade: "light", Traits: []tiles.Trait{tiles.Colorant}},
	}
	w, _ := placed(t, s, gs)
	return w
}

func codes(r plan.Run) []string {
	var cs []string
	for _, s := range r.Steps {
		cs = append(cs, s.Glaze.Code)
	}
	return cs
}

func TestDipRunsOpenEachBucketOnceLightToDark(t *testing.T) {
	w := shaded(t)
	d := plan.DipRuns(w, plan.Loads(w)[0])
	want := []string{"WH", "MI", "DK", "CU", "CO"}
	require.Equal(t, want, codes(d.First))
	require.Equal(t, want, codes(d.Second))
	require.Equal(t, 10.0, d.Second.Wait)
	require.Zero(t, d.First.Wait)
	for _, s := range d.First.Steps {
		require.False(t, s.Cup)
	}
	for _, s := range d.Second.Steps {
		require.True(t, s.Cup, "second dips come from a cup")
		require.Contains(t, s.Notes[0], "clean cup")
	}
}

// Every coat of every tile of the load is dipped once, in its own run.
func TestDipRunsDipEveryCoatOnce(t *testing.T) {
	w := shaded(t)
	l := plan.Loads(w)[0]
	d := plan.DipRuns(w, l)
	first, second := map[tiles.Number]int{}, map[tiles.Number]int{}
	for _, s := range d.First.Steps {
		for _, tile := range s.Tiles() {
			require.Equal(t, s.Glaze.Code, tile.First)
			first[tile.Number]++
		}
	}
	for _, s := range d.Second.Steps {
		for _, tile := range s.Tiles() {
			require.Equal(t, s.Glaze.Code, tile.Second)
			second[tile.Number]++
		}
	}
	for _, tile := range l.Tiles() {
		require.Equal(t, 1, first[tile.Number])
		require.Equal(t, !tile.Single(), second[tile.Number] == 1)
	}
}

// 25 tiles: 25 first and 20 second dips of half a minute, 10 openings of four
// minutes against 45 of them.
func TestDipRunsAgainstTileByTile(t *testing.T) {
	w := shaded(t)
	d := plan.DipRuns(w, plan.Loads(w)[0])
	require.Equal(t, plan.Effort{Minutes: 10*4 + 45*0.5, Openings: 10, Dips: 45}, d.Total)
	require.Equal(t, plan.Effort{Minutes: 45*4 + 45*0.5, Openings: 45, Dips: 45}, d.Single)
}

// At half a minute a dip and a stirring every five, no part is over ten tiles,
// and each stirring between parts costs its minute.
func TestDipRunsStir(t *testing.T) {
	s := kiln()
	s.Dip = tiles.Dip{Seconds: 3, Handling: 27, Opening: 4, Stir: 5, Dry: 10}
	w, _ := placed(t, s, glazesOf(12))
	loads := plan.Loads(w)
	for _, l := range loads {
		for _, step := range plan.DipRuns(w, l).First.Steps {
			for _, part := range step.Parts {
				require.LessOrEqual(t, len(part), 10)
			}
		}
	}
	w.Dip.Stir = 1
	step := plan.DipRuns(w, loads[0]).First.Steps[0]
	n := len(step.Tiles())
	require.Len(t, step.Parts, (n+1)/2)
	require.InDelta(t, 4+float64(n)*0.5+float64(len(step.Parts)-1), step.Minutes, 1e-9)
}
