package sheet_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
)

// TestLook writes every sheet into the folder TWODIP_LOOK names, to be looked at.
func TestLook(t *testing.T) {
	dir := os.Getenv("TWODIP_LOOK")
	if dir == "" {
		t.Skip("TWODIP_LOOK names no folder to write the sheets into")
	}
	for _, s := range sheet.Sheets() {
		require.NoError(t, os.WriteFile(filepath.Join(dir, s.Name+".pdf"), drawn(t, s.Draw, jobOf(placed(wallOf(glazes)))), 0o666))
	}
	for _, s := range sheet.Sheets() {
		job := jobOf(placed(hostile()))
		job.Wall.Labels.Sheet = "a4-21"
		require.NoError(t, os.WriteFile(filepath.Join(dir, "hostile-"+s.Name+".pdf"), drawn(t, s.Draw, job), 0o666))
	}
	for _, name := range sheet.LabelSheets() {
		w := wallOf(glazes)
		w.Labels.Sheet = name
		require.NoError(t, os.WriteFile(filepath.Join(dir, "labels-"+name+".pdf"), drawn(t, sheet.Labels, jobOf(w)), 0o666))
	}
}
