package record

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

func wallWith(t *testing.T, file, text string) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "tiles"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, file), []byte(text), 0o644))
	return dir
}

func TestReadBatches(t *testing.T) {
	dir := wallWith(t, BatchesFile, "Glaze,Batch,Mixed on,SG,Sieved,Note\nKM,7,14.3.2026,\"1,45\",80 mesh,\n")
	bs, err := ReadBatches(folder.At(dir), "")
	require.NoError(t, err)
	assert.Equal(t, []tiles.Batch{{Glaze: "KM", Name: "7", MixedOn: "2026-03-14", SG: 1.45, Sieved: "80 mesh", Line: 2}}, bs)
	bs, err = ReadBatches(folder.At(t.TempDir()), "")
	require.NoError(t, err)
	assert.Empty(t, bs)
}

func TestReadBatchesSaysWhatIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"glaze,batch\nKM,7\n":                      "tiles/batches.csv:1: there is no column mixed",
		"glaze,batch,mixed\nKM,,2026-01-01\n":      "tiles/batches.csv:2: batch is empty",
		"glaze,batch,mixed\nKM,7,\n":               `tiles/batches.csv:2: mixed is empty: write the day, like 2026-03-14`,
		"glaze,batch,mixed,sg\nKM,7,2026-1-1,145":  `sg "145" looks like grams in 100 ml: write 1.45`,
		"glaze,batch,mixed,sg\nKM,7,2026-1-1,0.4":  `sg "0.4" is not between 1.0 and 2.2`,
		"glaze,batch,mixed,sg\nKM,7,2026-1-1,thin": `sg "thin" is not a number`,
	} {
		_, err := ReadBatches(folder.At(wallWith(t, BatchesFile, text)), "")
		assert.ErrorContains(t, err, want)
	}
}

func TestParseDate(t *testing.T) {
	for _, c := range []struct {
		cell  string
		order tiles.DateOrder
		want  string
	}{
		{"2026-04-03", "", "2026-04-03"}, {"2026/4/3", "", "2026-04-03"}, {"2026-04-03T10:00:00Z", "", "2026-04-03"},
		{"3/4/2026", tiles.DayFirst, "2026-04-03"}, {"3/4/2026 9:15:02", tiles.MonthFirst, "2026-03-04"},
		{"13/4/2026", "", "2026-04-13"}, {"4/13/2026", "", "2026-04-13"}, {"4/4/2026", "", "2026-04-04"}, {"13. 4.2026", "", "2026-04-13"},
	} {
		got, err := parseDate(c.cell, c.order)
		assert.NoError(t, err, c.cell)
		assert.Equal(t, c.want, got, c.cell)
	}
	for _, cell := range []string{"3/4/2026", "12/1/2026", "1.12.2026", "", "2026", "2026-13-01", "31.2.2026", "3/4/26"} {
		_, err := parseDate(cell, "")
		assert.Error(t, err, cell)
	}
	_, err := parseDate("13/4/2026", tiles.MonthFirst)
	assert.Error(t, err, "month 13")
}
