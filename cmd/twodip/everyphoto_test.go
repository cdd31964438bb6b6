package main

import (
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every real photo and every hostile picture there is, in one wall, each under
// the name of a tile, through the commands as they are typed: what is none is
// said by name, the rest is measured, and the wall can be read afterwards.
func TestEveryPhotoAndHostilePictureInOneWall(t *testing.T) {
	t.Parallel()
	dir := smallWall(t, 5, nil)
	finish(t, dir, "plan")
	count := 0
	for _, shared := range []string{"photos", "hostile"} {
		count = copyPictures(t, dir, shared, count)
	}
	if count == 0 {
		t.Skip("../shared is not here: no real photos, no hostile pictures")
	}
	said, err := command(dir, "measure").CombinedOutput()
	assert.Error(t, err, "some are no pictures")
	assert.NotContains(t, string(said), "panic")
	assert.NotContains(t, string(said), "itself failed", "a fault of the program")
	assert.Contains(t, string(said), "measured, ")
	for _, args := range [][]string{{"check"}, {"plan"}, {"find", "#804020"}, {"trace"}, {"print", "labels"}} {
		finish(t, dir, args...)
	}
	built, err := command(dir, "build").CombinedOutput()
	assert.NotContains(t, string(built), "panic")
	assert.FileExists(t, filepath.Join(dir, "build/site/index.html"), "%v: %s", err, built)
	again := finishOrSaid(t, dir, "measure")
	assert.Regexp(t, `(?m)^0 photos measured, `, again, "what was read is known")
}

// copyPictures copies all files below a folder of shared data into the wall's
// photos, each as one of its tiles', and counts on.
func copyPictures(t *testing.T, dir, shared string, count int) int {
	root := filepath.Join("..", "..", "..", "shared", shared)
	err := filepath.WalkDir(root, func(at string, d fs.DirEntry, err error) error {
		if os.IsNotExist(err) {
			return nil
		}
		if err != nil || d.IsDir() || strings.HasPrefix(d.Name(), "SOURCE") || path.Ext(d.Name()) == ".md" {
			return err
		}
		data, err := os.ReadFile(at)
		if err != nil {
			return err
		}
		count++
		put(t, dir, fmt.Sprintf("tiles/photos/%s/%d %d %s", shared, 1+count%20, count, d.Name()), string(data))
		return nil
	})
	require.NoError(t, err)
	return count
}

// finishOrSaid runs a command that may say that something is wrong.
func finishOrSaid(t *testing.T, dir string, args ...string) string {
	t.Helper()
	said, _ := command(dir, args...).CombinedOutput()
	return string(said)
}
