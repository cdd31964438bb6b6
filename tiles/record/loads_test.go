package record

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

func TestReadLoads(t *testing.T) {
	dir := wallWith(t, LoadsFile, "load,kiln,date,schedule,cones by shelf\n12,Old,2026-03-14,slow 6,top 6; middle: 6; low shelf 5½\n13,,,,6\n")
	ls, err := ReadLoads(dir, "")
	require.NoError(t, err)
	assert.Equal(t, []tiles.Load{
		{Name: "12", Kiln: "Old", Date: "2026-03-14", Schedule: "slow 6", Cones: map[string]string{"top": "6", "middle": "6", "low shelf": "5½"}, Line: 2},
		{Name: "13", Cones: map[string]string{"": "6"}, Line: 3},
	}, ls)
}

func TestReadLoadsSaysWhatIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"kiln\nOld\n":               "tiles/loads.csv:1: there is no column load",
		"load,kiln\n,Old\n":         "tiles/loads.csv:2: load is empty",
		"load\n7a\n7A\n":            "tiles/loads.csv:3: load 7A also stands in line 2",
		"load,date\n7,31.11.2026\n": "there is no such day",
	} {
		_, err := ReadLoads(wallWith(t, LoadsFile, text), "")
		assert.ErrorContains(t, err, want)
	}
}
