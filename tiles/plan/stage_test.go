package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/plan"
)

// The whole of a wall of four glazes: 16 tiles from clay to wall, each part
// once, in the order of the work, every load dipped, fired and hung.
func TestStagesGoFromClayToWall(t *testing.T) {
	w := wallFor(t, upright(), 4)
	stages := plan.Stages(w)
	var names []string
	for _, s := range stages {
		names = append(names, s.What)
		require.Positive(t, s.Days, s.What)
		require.NotEmpty(t, s.Who, s.What)
	}
	require.Equal(t, []string{"Make the tiles", "Number the raw tiles", "Dry", "Bisque firing 1 of 1", "Wax the feet",
		"Dip load 1", "Load and fire load 1", "Unload, photograph and hang load 1"}, names)
	hours, days := plan.Whole(stages)
	require.InDelta(t, plan.DipRuns(w, plan.Loads(w)...).Total.Minutes/60, stages[5].Minutes/60, 1e-9)
	require.Less(t, hours, 8.0)
	require.GreaterOrEqual(t, days, 7+2+2)

	large := plan.Stages(wallFor(t, upright(), 15))
	dips, fires := 0, 0
	for _, s := range large {
		if strings.HasPrefix(s.What, "Dip ") {
			dips++
		}
		if strings.HasPrefix(s.What, "Load and fire") {
			fires++
		}
	}
	loads := len(plan.Loads(wallFor(t, upright(), 15)))
	require.Equal(t, loads, fires)
	require.LessOrEqual(t, dips, loads)
	require.Nil(t, plan.Stages(wallFor(t, upright(), 0)))
}
