package sheet_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
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
