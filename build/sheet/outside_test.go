package sheet_test

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
)

// need skips a test where a program it checks with is missing; it fails there
// where TWODIP_ALL=1 says that everything must run.
func need(t *testing.T, programs ...string) {
	t.Helper()
	for _, p := range programs {
		if _, err := exec.LookPath(p); err != nil {
			if os.Getenv("TWODIP_ALL") == "1" {
				t.Fatalf("%s is not installed", p)
			}
			t.Skipf("%s is not installed", p)
		}
	}
}

// long says whether the checks over everything are asked for.
func long() bool { return os.Getenv("TWODIP_LONG") == "1" }

// outside runs a program and returns what it says.
func outside(t *testing.T, program string, args ...string) string {
	t.Helper()
	var out, err bytes.Buffer
	c := exec.Command(program, args...)
	c.Stdout, c.Stderr = &out, &err
	require.NoError(t, c.Run(), "%s %v: %s", program, args, err.String())
	return out.String()
}

// saved writes a PDF into the test's folder.
func saved(t *testing.T, pdf []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "sheet.pdf")
	require.NoError(t, os.WriteFile(path, pdf, 0o666))
	return path
}

// pdfText is the text of a PDF in the order it is drawn.
func pdfText(t *testing.T, pdf []byte) string {
	t.Helper()
	need(t, "pdftotext")
	return outside(t, "pdftotext", "-raw", saved(t, pdf), "-")
}

// A teacher jumps to a load, a shelf, a bucket or a page of tiles: another
// reader of PDFs finds the same places, each on its own page.
func TestLongSheetsHaveBookmarks(t *testing.T) {
	need(t, "mutool")
	w := placed(wallOf(glazes))
	for name, c := range map[string]struct {
		draw func(io.Writer, sheet.Job) (int, error)
		want []string
	}{
		"dips":    {sheet.Dips, []string{"Load 1, 1st coats", "Load 1, 2nd coats"}},
		"shelves": {sheet.Shelves, []string{"Load 1, shelf bottom", "Load 1, shelf top"}},
		"buckets": {sheet.Buckets, []string{"QM Quarry Milk", "KC Kelp and Copper"}},
		"grid":    {sheet.Grid, []string{"Page A1, tiles between 1 and"}},
		"labels":  {sheet.Labels, []string{"Tiles 1 to ", "Tiles 22 to "}},
	} {
		said := outside(t, "mutool", "show", saved(t, drawn(t, c.draw, jobOf(w))), "outline")
		for _, want := range c.want {
			require.Contains(t, said, want, name)
		}
		require.Regexp(t, `#page=[23]`, said, name)
	}
}
