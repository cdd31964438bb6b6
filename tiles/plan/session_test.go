package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

func sessionWall(t *testing.T, glazes, together int) tiles.Wall {
	t.Helper()
	s := kiln()
	s.Dip = tiles.Dip{Thickness: 0.5, Loss: 15, Bucket: 280, Cup: 120, Together: together}
	w, _ := placed(t, s, glazesOf(glazes))
	return w
}

// On a small wall every load is dipped by itself; on a large one, where a load
// holds a glaze as second once or twice, so many go together that a cup serves
// four dips or more.
func TestSessionsMakeACupWorthFilling(t *testing.T) {
	for _, n := range []int{6, 12, 24, 60} {
		w := sessionWall(t, n, 0)
		sessions := plan.Sessions(w)
		loads, cups, dips := 0, plan.Need(w).Cups, n*(n-1)
		for _, s := range sessions {
			loads += len(s)
		}
		require.Len(t, plan.Loads(w), loads, "every load is dipped once")
		if n <= 12 {
			require.Len(t, sessions, loads, "%d glazes", n)
		}
		require.Greater(t, float64(dips)/float64(cups), 3.5, "%d glazes: dips a cup", n)
	}
}

func TestSessionsAsTheSettingsSay(t *testing.T) {
	alone, four := sessionWall(t, 24, 1), sessionWall(t, 24, 4)
	require.Len(t, plan.Sessions(alone), len(plan.Loads(alone)))
	require.Len(t, plan.Sessions(four), (len(plan.Loads(four))+3)/4)
	a, b := plan.Need(alone), plan.Need(four)
	require.Greater(t, a.Thrown, 2*b.Thrown)
	require.InDelta(t, a.Litres-a.Thrown, b.Litres-b.Thrown, 1e-6, "nothing else changes")
}

// A session dips every coat of its loads once, and opens a bucket once a run.
func TestASessionDipsEveryCoatOnce(t *testing.T) {
	w := sessionWall(t, 24, 3)
	for _, s := range plan.Sessions(w) {
		d := plan.DipRuns(w, s...)
		require.Equal(t, []int{s.First(), s.Last()}, []int{d.Load, d.Last})
		want, coats := 0, map[tiles.Number]int{}
		for _, l := range s {
			for _, tile := range l.Tiles() {
				want++
				if tile.Second != "" {
					want++
				}
			}
		}
		for _, run := range []plan.Run{d.First, d.Second} {
			opened := map[string]bool{}
			for _, step := range run.Steps {
				require.False(t, opened[step.Glaze.Code])
				opened[step.Glaze.Code] = true
				for _, tile := range step.Tiles() {
					coats[tile.Number]++
				}
			}
		}
		got := 0
		for _, n := range coats {
			got += n
		}
		require.Equal(t, want, got)
	}
}

// What is thrown away is said beforehand, where it is much.
func TestMaterialsSayWhatCupsWaste(t *testing.T) {
	require.Empty(t, plan.Need(sessionWall(t, 6, 0)).CupWords(sessionWall(t, 6, 0)))
	w := sessionWall(t, 24, 1)
	say := plan.Need(w).CupWords(w)
	require.Contains(t, say, "second-dip cups and thrown away")
	require.Contains(t, say, "(dip: together)")
	require.Contains(t, say, "(part: pairs)")
	w.Tiles = w.Tiles[:0]
	require.Empty(t, plan.Need(w).CupWords(w))
}
