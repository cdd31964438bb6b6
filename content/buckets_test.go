package content

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

func bucketsOf(t *testing.T, text string) ([]tiles.Glaze, error) {
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "content"), 0o755))
	if text != "" {
		require.NoError(t, os.WriteFile(filepath.Join(dir, "content", "buckets.csv"), []byte(text), 0o644))
	}
	glazes := []tiles.Glaze{{Code: "QM"}, {Code: "LR"}, {Code: "TB"}, {Code: "PI", Retired: true}}
	return glazes, ReadBuckets(folder.At(dir), glazes)
}

func TestBucketsSayWhatCanBeDippedToday(t *testing.T) {
	glazes, err := bucketsOf(t, "glaze,state,note\n# a remark\nqm,Low,ask Emma\nLR,being  remixed,\nTB,,\n")
	require.NoError(t, err)
	var states []tiles.BucketState
	for _, g := range glazes {
		states = append(states, g.Bucket)
	}
	assert.Equal(t, []tiles.BucketState{"low", "being remixed", "ready", "gone"}, states)

	glazes, err = bucketsOf(t, "")
	require.NoError(t, err)
	assert.Equal(t, tiles.BucketUnsaid, glazes[0].Bucket, "without the file nothing is said")
}

func TestBucketsThatCannotBeRead(t *testing.T) {
	for text, want := range map[string]string{
		"glaze,state\nXX,ready\n":          `content/buckets.csv:2: glaze "XX" is not on the glaze list; write its code as on the list, or take the row out`,
		"glaze,state\nQM,soon\n":           `content/buckets.csv:2: state is "soon"; write one of ready, low, being remixed, gone`,
		"glaze,state\nQM,low\nqm,gone\n":   `content/buckets.csv:3: glaze QM has a row already, in line 2; keep one of the two rows`,
		"glaze,state\n,low\n":              `content/buckets.csv:2: glaze is empty; write the glaze's code`,
		"bucket,state\nQM,low\n":           `content/buckets.csv:1: `,
		"glaze,state\nQM,low\nLR,=cmd|x\n": `content/buckets.csv:3: state is "=cmd|x"`,
	} {
		_, err := bucketsOf(t, text)
		assert.ErrorContains(t, err, want, text)
	}
}
