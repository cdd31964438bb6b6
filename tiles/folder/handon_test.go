package folder

import (
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestHandOnTakesOnlyWhatIsOurs copies a site again and again, and into places
// that are somebody's.
func TestHandOnTakesOnlyWhatIsOurs(t *testing.T) {
	place := t.TempDir()
	wall := At(filepath.Join(place, "wall"))
	require.NoError(t, os.MkdirAll(wall.Path("build/site"), 0o755))
	site := fstest.MapFS{"index.html": {Data: []byte("one")}, "tile/1.html": {Data: []byte("1")}}
	to := filepath.Join(place, "stick")

	did, err := wall.HandOn(site, to)
	require.NoError(t, err)
	assert.Equal(t, HandedOn{Files: 2, New: 2}, did)

	site["index.html"] = &fstest.MapFile{Data: []byte("two")}
	delete(site, "tile/1.html")
	site["tile/2.html"] = &fstest.MapFile{Data: []byte("2")}
	did, err = wall.HandOn(site, to)
	require.NoError(t, err)
	assert.Equal(t, HandedOn{Files: 2, New: 1, Changed: 1, Gone: 1, Again: true}, did)
	assert.NoFileExists(t, filepath.Join(to, "tile/1.html"))

	own := filepath.Join(to, "thesis.doc")
	require.NoError(t, os.WriteFile(own, []byte("mine"), 0o644))
	_, err = wall.HandOn(site, to)
	assert.ErrorContains(t, err, "thesis.doc")
	assert.FileExists(t, own)

	for name, where := range map[string]string{
		"the wall": wall.Dir(), "in the wall": wall.Path("build/site"), "above the wall": place,
		"no path": "stick", "no parent": filepath.Join(place, "no", "stick"), "a file": own,
	} {
		_, err := wall.HandOn(site, where)
		assert.Error(t, err, name)
	}
	link := filepath.Join(place, "link")
	require.NoError(t, os.Symlink(to, link))
	_, err = wall.HandOn(site, link)
	assert.Error(t, err, "a link")
	left, err := os.ReadDir(place)
	require.NoError(t, err)
	assert.Len(t, left, 3, "what was begun is gone")
}
