package content

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/folder"
)

func TestANewWallIsARightOne(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "my wall")
	require.NoError(t, Start(dir))
	s, err := ReadSettings(folder.At(dir))
	require.NoError(t, err)
	s.Rules = nil
	assert.Equal(t, Defaults(), s, "the starter says the defaults")
	glazes, err := ReadGlazes(folder.At(dir))
	require.NoError(t, err)
	assert.Len(t, glazes, 3)
	assert.Empty(t, CheckRules(s, glazes))
	pages, err := ReadPages(folder.At(dir))
	require.NoError(t, err)
	assert.NotEmpty(t, pages)
	assert.DirExists(t, filepath.Join(dir, "tiles", "photos"))
}

func TestStartWritesOverNothing(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, "mine.txt", "mine")
	assert.ErrorContains(t, Start(dir), "is there already and is not empty; name a new folder")
	assert.ErrorContains(t, Start(filepath.Join(dir, "mine.txt")), "is a file")
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, entries, 1)
}
