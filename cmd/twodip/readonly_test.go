package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/folder"
)

// On a disk that can only be read, commands that write say so in one sentence;
// those that only read do their work.
func TestReadOnlyDisk(t *testing.T) {
	t.Parallel()
	way := ownMounts(t)
	for _, w := range writers(t) {
		run := quoted(w.args) + " --wall disk"
		said, left := onDisk(t, way, w.wall, "mount -o remount,ro disk; "+run+" 2>said >/dev/null && exit 9 || test $? = 1; cat said; twodip check --wall disk; mount -o remount,rw disk")
		assert.Regexp(t, "^("+w.file+`|disk/earlier/[^:]*): the disk can only be read; copy the wall's folder to a disk you can write to\n(?s:.*)nothing wrong\n`, said, w.args[0])
		assert.Empty(t, differences(w.before, left), w.args[0])
	}
}

// unprivileged is the command run without the rights that let a computer's
// owner write anywhere.
func unprivileged(t *testing.T, c *exec.Cmd) *exec.Cmd {
	t.Helper()
	if os.Getuid() != 0 {
		return c
	}
	if exec.Command("setpriv", "--bounding-set=-all", "true").Run() != nil {
		if os.Getenv("TWODIP_ALL") == "1" {
			t.Fatal("setpriv does not work here")
		}
		t.Skip("setpriv does not work here: folders that may not be written are not tried")
	}
	path, err := exec.LookPath(c.Args[0])
	require.NoError(t, err)
	d := exec.Command("setpriv", append([]string{"--bounding-set=-all", path}, c.Args[1:]...)...)
	d.Dir = c.Dir
	return d
}

// In folders that one may not write to, every command that writes says so and
// leaves all as it is; check reads them as ever.
func TestFoldersThatMayNotBeWritten(t *testing.T) {
	t.Parallel()
	const do = ": you may not write here; ask for the right to write in this folder, or copy the wall to a folder of your own\n"
	for _, w := range writers(t) {
		args := append(w.args, "--wall", "disk")
		for _, folders := range [][]string{{""}, {"tiles", "build", "build/print", "build/pictures", "build/contact"}} {
			dir := copyWall(t, w.wall)
			require.NoError(t, os.Rename(dir, filepath.Join(filepath.Dir(dir), "disk")))
			dir = filepath.Join(filepath.Dir(dir), "disk")
			want := w.file + do
			if folders[0] == "" {
				want = "disk" + do
				require.NoError(t, os.Remove(filepath.Join(dir, folder.LockFile)))
			}
			lock(t, dir, folders)
			c := unprivileged(t, command(filepath.Dir(dir), args...))
			said, err := c.Output()
			var failed *exec.ExitError
			require.ErrorAs(t, err, &failed, "%s said %s", w.args[0], said)
			assert.Equal(t, 1, failed.ExitCode())
			assert.Equal(t, want, string(failed.Stderr), w.args[0])
			assert.Empty(t, differences(w.before, hashes(t, dir)), w.args[0])
			said, err = unprivileged(t, command(dir, "check")).CombinedOutput()
			assert.NoError(t, err, "%s", said)
		}
	}
}

// lock takes the right to write from folders of a wall, until the test ends.
func lock(t *testing.T, dir string, folders []string) {
	t.Helper()
	for _, folder := range folders {
		require.NoError(t, os.MkdirAll(filepath.Join(dir, folder), 0o755))
	}
	for _, folder := range folders {
		require.NoError(t, os.Chmod(filepath.Join(dir, folder), 0o555))
		t.Cleanup(func() { _ = os.Chmod(filepath.Join(dir, folder), 0o755) })
	}
}
