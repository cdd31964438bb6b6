package sheet_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
)

// Every label of a roll is printed in black and white at the printer's own
// dots, and every code on it is read back by zbarimg.
func TestRollsReadAtTheirPrintersDots(t *testing.T) {
	need(t, "pdftoppm", "zbarimg")
	for _, roll := range []struct {
		name string
		dpi  int
		far  string
	}{{"roll-57x32", 203, ""}, {"roll-50x30", 203, "https://tiles.example/wall"}, {"roll-62x29", 300, "https://tiles.example/wall"}, {"ours", 203, ""}} {
		w := wallOf(glazes[:4])
		w.Labels.Sheet, w.Address = roll.name, roll.far
		w.Labels.Sheets = []tiles.LabelSheet{{Name: "ours", Paper: tiles.PaperRoll, Width: 40, Height: 20, DPI: roll.dpi}}
		dir := t.TempDir()
		pdf := filepath.Join(dir, "roll.pdf")
		require.NoError(t, os.WriteFile(pdf, drawn(t, sheet.Labels, jobOf(w)), 0o644))
		require.NoError(t, exec.Command("pdftoppm", "-r", fmt.Sprint(roll.dpi), "-mono", pdf, filepath.Join(dir, "p")).Run())
		pages, err := filepath.Glob(filepath.Join(dir, "p-*"))
		require.NoError(t, err)
		require.Len(t, pages, len(w.Tiles), "one label a page")
		for i, page := range pages {
			out, err := exec.Command("zbarimg", "--nodbus", "-q", "--raw", page).Output()
			require.NoError(t, err, "%s, label %d", roll.name, i+1)
			n, ok := tiles.NumberFromPayload(strings.TrimSpace(string(out)))
			require.True(t, ok, string(out))
			require.Equal(t, w.Tiles[i].Number, n)
		}
	}
}
