package main

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A wall of 120 glazes has more places than one page can show: that is no
// mistake, and all other sheets are printed.
func TestAWallTooLargeForOneSheetIsPrintedWithoutIt(t *testing.T) {
	dir := t.TempDir()
	list := "code,name\n"
	for i := range 120 {
		list += fmt.Sprintf("%c%d,Invented %d\n", 'A'+i%26, i/26, i)
	}
	for name, text := range map[string]string{
		"wall.yaml":          "name: A large wall\n",
		"content/glazes.csv": list,
		"tiles/plan.csv":     "tile,first,second,status\n1,A0,,planned\n2,A0,B0,planned\n14400,P4,,planned\n",
	} {
		path := filepath.Join(dir, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	}
	status, out, errs := twodip("print", "--wall", dir)
	assert.Equal(t, 0, status, errs)
	assert.Contains(t, errs, "hint: overview is left out: content/glazes.csv: 120 by 120 tiles do not read on one page; print the grid instead")
	assert.Contains(t, out, "build/print/tags.pdf")
	assert.NoFileExists(t, filepath.Join(dir, "build/print/overview.pdf"))

	status, _, errs = twodip("print", "overview", "--wall", dir)
	assert.Equal(t, 1, status, "asked for by name")
	assert.Contains(t, errs, "do not read on one page")
}
