//go:build unix

package main

import (
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/folder"
)

// While one command is at work, held in the middle of writing, any other that
// writes says so and leaves; commands that read do their work. When the first
// is killed, its lock goes with it.
func TestTwoAtOnce(t *testing.T) {
	ws := writers(t)
	first := ws[2]
	require.Equal(t, "measure", first.args[0])
	dir := copyWall(t, first.wall)
	c := command(dir, "measure")
	require.NoError(t, c.Start())
	for end := time.Now().Add(20 * time.Second); !hasUnfinished(dir); time.Sleep(50 * time.Microsecond) {
		require.True(t, time.Now().Before(end), "measure began no file")
	}
	require.NoError(t, c.Process.Signal(syscall.SIGSTOP))
	defer c.Process.Kill()
	before := hashes(t, dir)
	for _, args := range [][]string{{"plan"}, {"print"}, {"measure"}, {"build"}, {"log", "tiles/new rows.csv"}, {"build", "--take", "tile.html"}} {
		said, err := command(dir, args...).CombinedOutput()
		assert.Error(t, err, args[0])
		assert.Equal(t, "wall: another twodip command is at work on this wall; wait until it has ended, then run this again\n", string(said), args[0])
	}
	for _, args := range [][]string{{"check"}, {"plan", "--look"}, {"find", "#884422"}, {"log"}, {"trace"}} {
		finish(t, dir, args...)
	}
	assert.Empty(t, differences(before, hashes(t, dir)))
	require.NoError(t, c.Process.Kill())
	_ = c.Wait()
	assert.FileExists(t, filepath.Join(dir, folder.LockFile))
	finish(t, dir, "measure")
	assert.Empty(t, differences(first.after, hashes(t, dir)))
}

// Many at once: each either does all of its work or none.
func TestManyAtOnce(t *testing.T) {
	w := writers(t)[2]
	dir := copyWall(t, w.wall)
	type end struct {
		said string
		err  error
	}
	ends := make(chan end)
	for range 6 {
		go func() {
			said, err := command(dir, "measure").CombinedOutput()
			ends <- end{string(said), err}
		}()
	}
	done := 0
	for range 6 {
		e := <-ends
		switch {
		case e.err == nil:
			done++
		default:
			assert.True(t, strings.HasSuffix(e.said, "is at work on this wall; wait until it has ended, then run this again\n"), e.said)
		}
	}
	assert.Positive(t, done)
	assert.Empty(t, differences(w.after, hashes(t, dir)))
}
