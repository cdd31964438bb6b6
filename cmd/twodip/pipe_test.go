//go:build unix

package main

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A pipe under the name of a file would be waited for, for ever; it is said
// instead, by every command that would read it. The minute is there to end the
// test, not to time it.
func TestAPipeIsNoFile(t *testing.T) {
	for file, commands := range map[string][]string{
		"wall.yaml":          {"check", "plan"},
		"content/glazes.csv": {"check", "plan", "build"},
		"content/visit.md":   {"check", "build"},
		"tiles/log.csv":      {"check", "trace", "build"},
		"tiles/photos/3.jpg": {"measure"},
	} {
		dir := smallWall(t, 3, nil)
		finish(t, dir, "plan")
		path := filepath.Join(dir, filepath.FromSlash(file))
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		_ = os.Remove(path)
		require.NoError(t, syscall.Mkfifo(path, 0o600))
		for _, name := range commands {
			c := command(dir, name)
			stop := time.AfterFunc(time.Minute, func() { _ = c.Process.Kill() })
			said, err := c.CombinedOutput()
			stop.Stop()
			assert.Error(t, err, "%s of %s", name, file)
			assert.Equal(t, 1, c.ProcessState.ExitCode(), "%s of %s: %s", name, file, said)
			assert.Contains(t, string(said), file+": ", name)
			assert.Contains(t, string(said), "is not a file", name)
		}
	}
}

// A link among the photos that leads out of their folder is not followed, as
// what is measured may be published.
func TestALinkOutOfThePhotosIsNotFollowed(t *testing.T) {
	dir := smallWall(t, 3, nil)
	finish(t, dir, "plan")
	photograph(t, dir, 1, "1.jpg")
	photos := filepath.Join(dir, "tiles", "photos")
	outside := filepath.Join(t.TempDir(), "2.jpg")
	require.NoError(t, os.Rename(filepath.Join(photos, "1.jpg"), outside))
	photograph(t, dir, 1, "1.jpg")
	require.NoError(t, os.Symlink(outside, filepath.Join(photos, "2.jpg")))
	require.NoError(t, os.Symlink("1.jpg", filepath.Join(photos, "3.jpg")))
	said, err := command(dir, "measure").CombinedOutput()
	assert.Error(t, err)
	assert.Contains(t, string(said), "tiles/photos/2.jpg: it is a link to a place outside tiles/photos; put the photo itself there")
	assert.Contains(t, string(said), "2 photos measured")
	assert.NoFileExists(t, filepath.Join(dir, "build", "pictures", "2-1280.jpg"))
}
