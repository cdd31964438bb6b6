package record

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

func TestReadLoads(t *testing.T) {
	dir := wallWith(t, LoadsFile, "load,kiln,date,schedule,cones by shelf\n12,Old,2026-03-14,slow 6,top 6; middle: 6; low shelf 5½\n13,,,,6\n")
	ls, err := ReadLoads(folder.At(dir), "")
	require.NoError(t, err)
	assert.Equal(t, []tiles.Load{
		{Name: "12", Kiln: "Old", Date: "2026-03-14", Schedule: "slow 6", Cones: map[string]string{"top": "6", "middle": "6", "low shelf": "5½"}, Line: 2},
		{Name: "13", Cones: map[string]string{"": "6"}, Line: 3},
	}, ls)
}

// A studio names its firings; which of them held the plan's tiles is written
// beside them, or is the name itself.
func TestReadLoadsJoinsThePlan(t *testing.T) {
	ls, err := ReadLoads(folder.At(wallWith(t, LoadsFile, "load,date,tiles\nG3,2026-03-14,load 2\nG4,2026-03-21,\n3,2026-03-28,\n")), "")
	require.NoError(t, err)
	var joined []int
	for _, l := range ls {
		joined = append(joined, l.PlanLoad())
	}
	assert.Equal(t, []int{2, 0, 3}, joined)
}

func TestReadLoadsSaysWhatIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"kiln\nOld\n":               "tiles/loads.csv:1: there is no column load",
		"load,kiln\n,Old\n":         "tiles/loads.csv:2: load is empty",
		"load\n7a\n7A\n":            "tiles/loads.csv:3: load 7A also stands in line 2",
		"load,date\n7,31.11.2026\n": "there is no such day",
		"load,tiles\nG3,top\n":      "tiles/loads.csv:2: tiles is \"top\"; write the number that tiles/plan.csv has below load",
		"load,tiles\nG3,2\n2,\n":    "tiles/loads.csv:3: load 2 of the plan was in firing G3 and in firing 2",
	} {
		_, err := ReadLoads(folder.At(wallWith(t, LoadsFile, text)), "")
		assert.ErrorContains(t, err, want)
	}
}
