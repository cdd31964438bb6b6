//go:build unix

package main

import (
	"fmt"
	"os"
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
	dir, kill := heldMidway(t, first)
	defer kill()
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
	kill()
	assert.FileExists(t, filepath.Join(dir, folder.LockFile))
	finish(t, dir, "measure")
	assert.Empty(t, differences(first.after, hashes(t, dir)))
}

// heldMidway runs the command on a copy of its wall and holds it while a file
// is being written, until it is killed. One that was over before it could be held is run anew: the
// system may look away from us for as long as a whole run takes.
func heldMidway(t *testing.T, w writer) (dir string, kill func()) {
	t.Helper()
	for range 100 {
		dir := copyWall(t, w.wall)
		c := command(dir, w.args...)
		require.NoError(t, c.Start())
		gone := make(chan struct{})
		go func() { _ = c.Wait(); close(gone) }()
		kill := func() { _ = c.Process.Kill(); <-gone }
		for !over(gone) && !hasUnfinished(dir) {
			time.Sleep(50 * time.Microsecond)
		}
		if c.Process.Signal(syscall.SIGSTOP) == nil && stands(c.Process.Pid, gone) && hasUnfinished(dir) {
			return dir, kill
		}
		kill()
		require.NoError(t, os.RemoveAll(dir))
	}
	require.Fail(t, "never held while a file was being written", w.args[0])
	return "", nil
}

// stands waits until every thread of a process that was told to stop has stopped:
// one may run on for a moment, and end what it is writing (proc(5), stat: state T).
func stands(pid int, gone <-chan struct{}) bool {
	for !over(gone) {
		stats, err := filepath.Glob(fmt.Sprintf("/proc/%d/task/*/stat", pid))
		stopped := 0
		for _, path := range stats {
			text, _ := os.ReadFile(path)
			if _, after, ok := strings.Cut(string(text), ") "); ok && strings.HasPrefix(after, "T") {
				stopped++
			}
		}
		if err != nil || stopped == len(stats) { // none: a system without /proc
			return true
		}
		time.Sleep(time.Millisecond)
	}
	return false
}

func over(gone <-chan struct{}) bool {
	select {
	case <-gone:
		return true
	default:
		return false
	}
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
