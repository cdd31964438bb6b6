package run

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

// What the records say that matches nothing is said by check, in one sentence.
func TestCheckSeesSlipsInTheRecords(t *testing.T) {
	dir, err := folder.New(t.TempDir())
	require.NoError(t, err)
	require.NoError(t, dir.Fill(map[string][]byte{
		"wall.yaml":          []byte("name: A wall\n"),
		"content/glazes.csv": []byte("code,name\nQM,Quarry Milk\nLR,#REF!\nTB,#N/A\n"),
		"tiles/plan.csv":     []byte("tile,first,second,status,load\n1,QM,,planned,3\n"),
		"tiles/batches.csv":  []byte("glaze,batch,mixed on\nQM,1,2026-01-04\nZZ,1,2026-01-05\n"),
		"tiles/loads.csv":    []byte("load,cones,tiles\nG1,top banana,1\nG2,top 5-Jun; middle 6,9\n"),
		"tiles/log.csv":      []byte("piece,first,result,faults\nP1,QM,fault,crwaling\n"),
		"tiles/photos/1.jpg": []byte("one picture"),
		"tiles/photos/2.jpg": []byte("one picture"),
		"tiles/photos/3.jpg": []byte("two picture"),
	}))
	c, err := Check(dir, func(Records) ([]string, tiles.Problems) { return nil, nil })
	require.NoError(t, err)
	said := strings.Join(c.Notes, "\n")
	for _, want := range []string{
		"content/glazes.csv:3: glaze LR is named #REF!: a formula failed in the spreadsheet; write the name itself",
		"content/glazes.csv:4: glaze TB is named #N/A: a formula failed",
		"tiles/batches.csv:3: no glaze has the code ZZ; write the code as the glaze list has it",
		`tiles/loads.csv:2: "banana" is no cone; write it as it stands on the cone`,
		`tiles/loads.csv:3: cone "5-Jun" is a date that a spreadsheet made`,
		"tiles/loads.csv:3: tiles is load 9, and the plan has 3",
		"tiles/log.csv: “crwaling” is not among the fault words: did you mean crawling?",
		"tiles/photos/2.jpg is the same picture file as 1.jpg: keep the one whose name is right",
	} {
		assert.Contains(t, said, want)
	}
	assert.NotContains(t, said, "3.jpg is the same")
	_, err = os.Stat(dir.Path("build"))
	assert.ErrorIs(t, err, os.ErrNotExist, "check writes nothing")
}
