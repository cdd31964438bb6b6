//go:build unix

package main

import (
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// At Ctrl-C, and when the system asks it to end, a command that makes things
// stops at its next file, says what is left in one sentence, ends with 1 and
// leaves every file as it was or as a finished run leaves it. The next run
// completes.
func TestStoppedByAPerson(t *testing.T) {
	t.Parallel()
	says := map[string]string{
		"print": "; stopped with ",
		"build": "stopped before the site was whole: what was there before is as it was\nnext: twodip build",
	}
	for _, w := range writers(t) {
		want, ok := says[w.args[0]]
		if !ok {
			continue
		}
		for _, sign := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM} {
			t.Run(w.args[0]+" "+sign.String(), func(t *testing.T) {
				dir, said := w.stopMidway(t, sign)
				assert.Contains(t, said, want)
				left := hashes(t, dir)
				w.judge(t, dir, left)
				for name := range left {
					assert.False(t, isUnfinished(name), name)
				}
				finish(t, dir, w.args...)
				assert.Empty(t, differences(w.after, hashes(t, dir)))
			})
		}
	}
}

// stopMidway sends the command a signal while it writes, and gives what it said
// before it ended with 1. One that was done before the signal came is run anew.
func (w writer) stopMidway(t *testing.T, sign syscall.Signal) (dir, said string) {
	t.Helper()
	for range 100 {
		dir := copyWall(t, w.wall)
		var out strings.Builder
		c := command(dir, w.args...)
		c.Stdout, c.Stderr = &out, &out
		require.NoError(t, c.Start())
		gone := make(chan error, 1)
		go func() { gone <- c.Wait() }()
		for len(gone) == 0 && !hasUnfinished(dir) {
			time.Sleep(50 * time.Microsecond)
		}
		_ = c.Process.Signal(sign)
		if err := <-gone; err == nil {
			continue
		}
		require.Equal(t, 1, c.ProcessState.ExitCode(), out.String())
		return dir, out.String()
	}
	require.Fail(t, "the signal never came while it wrote", w.args[0])
	return "", ""
}
