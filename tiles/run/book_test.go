package run

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

func loggedWall(t *testing.T, files map[string]string) folder.Folder {
	t.Helper()
	dir, err := folder.New(t.TempDir())
	require.NoError(t, err)
	all := map[string][]byte{"wall.yaml": []byte("name: A wall\n"), "content/glazes.csv": []byte("code,name\nQM,Quarry Milk\nFG,Fen Glass\n")}
	for name, text := range files {
		all[name] = []byte(text)
	}
	require.NoError(t, dir.Fill(all))
	return dir
}

// A log in a spreadsheet's own file is taken as the spreadsheet shows it: a day
// that is a number formatted as a day, too; and taken twice it counts once.
func TestLogTakesASpreadsheet(t *testing.T) {
	dir := loggedWall(t, nil)
	f := excelize.NewFile()
	day, err := f.NewStyle(&excelize.Style{CustomNumFmt: new("yyyy-mm-dd")})
	require.NoError(t, err)
	require.NoError(t, f.SetSheetRow("Sheet1", "A1", &[]any{"Pot", "Glazed on", "First", "Second"}))
	require.NoError(t, f.SetSheetRow("Sheet1", "A2", &[]any{"P1", time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC), "QM", "Fen Glass"}))
	require.NoError(t, f.SetCellStyle("Sheet1", "B2", "B2", day))
	path := filepath.Join(t.TempDir(), "spring.xlsx")
	require.NoError(t, f.SaveAs(path))

	did, err := Log(dir, []Rows{RowsOf(path)})
	require.NoError(t, err)
	assert.Equal(t, 1, did.New)
	l, err := record.ReadLog(dir, tiles.LogSettings{})
	require.NoError(t, err)
	for p := range l.Each() {
		assert.Equal(t, "P1 2026-03-14 QM FG", p.ID+" "+p.Date+" "+p.First+" "+p.Second)
	}
	did, err = Log(dir, []Rows{RowsOf(path)})
	require.NoError(t, err)
	assert.Equal(t, [2]int{0, 1}, [2]int{did.New, did.Same})

	require.NoError(t, os.WriteFile(path, []byte("no spreadsheet"), 0o644))
	_, err = Log(dir, []Rows{RowsOf(path)})
	assert.ErrorContains(t, err, "spring.xlsx: cannot be read as a spreadsheet; open it in the spreadsheet and save it again")
}

// A spreadsheet that was worked in after the table beside it was saved is said:
// it is not read.
func TestCheckSaysASpreadsheetSavedLater(t *testing.T) {
	dir := loggedWall(t, map[string]string{"tiles/log.csv": "piece,first\n", "tiles/log.xlsx": "x", "tiles/loads.csv": "load,date\n", "tiles/loads.ods": "x"})
	now := time.Now()
	require.NoError(t, os.Chtimes(dir.Path("tiles/log.csv"), now, now.Add(-time.Hour)))
	require.NoError(t, os.Chtimes(dir.Path("tiles/loads.ods"), now, now.Add(-time.Hour)))
	c, err := Check(dir, func(Records) ([]string, tiles.Problems) { return nil, nil })
	require.NoError(t, err)
	assert.Contains(t, c.Notes, `tiles/log.xlsx was saved later than log.csv, which is the one that is read; save it as "CSV UTF-8" under that name, or move it away`)
	for _, note := range c.Notes {
		assert.NotContains(t, note, "loads.ods")
	}
}

// A form's export is taken again once one more of its headings is known: its
// rows are filled, and none stands twice.
func TestAnExportTakenAgainFillsItsRows(t *testing.T) {
	export := "Timestamp,Which pot,First,Second,Kid\n2026-03-14,P1,QM,FG,Mo\n2026-03-14,P2,QM,FG,Jo\n2026-03-15,P3,QM,,Mo\n"
	for _, known := range []string{"", "{Kid: maker}", "{Which pot: piece}"} {
		dir := loggedWall(t, nil)
		if known != "" {
			require.NoError(t, dir.WriteBytes("wall.yaml", []byte("log: {headings: "+known+"}\n")))
		}
		path := filepath.Join(t.TempDir(), "form.csv")
		require.NoError(t, os.WriteFile(path, []byte(export), 0o644))
		did, err := Log(dir, []Rows{RowsOf(path)})
		require.NoError(t, err)
		assert.Equal(t, 3, did.New)
		assert.NotEmpty(t, did.Heading)

		require.NoError(t, dir.WriteBytes("wall.yaml", []byte("log: {headings: {Which pot: piece, Kid: maker}}\n")))
		require.NoError(t, os.WriteFile(path, []byte(export+"2026-03-16,P4,FG,QM,Jo\n"), 0o644))
		did, err = Log(dir, []Rows{RowsOf(path)})
		require.NoError(t, err)
		assert.Equal(t, [4]int{1, 3, 0, 4}, [4]int{did.New, did.Filled, did.Same, did.Pieces}, "%q: new, filled, same, in all", known)
		did, err = Log(dir, []Rows{RowsOf(path)})
		require.NoError(t, err)
		assert.Equal(t, [2]int{0, 4}, [2]int{did.New, did.Same}, known)
	}
}
