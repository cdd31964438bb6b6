package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ownMounts is how a shell gets a place to mount small disks in: as the
// computer's owner, or in a user namespace of one's own. nil = neither works here.
func ownMounts(t *testing.T) []string {
	t.Helper()
	for _, way := range [][]string{{"unshare", "-m"}, {"unshare", "-rm"}} {
		trial := exec.Command(way[0], append(way[1:], "sh", "-c", "mount -t tmpfs -o size=64k none "+t.TempDir())...)
		if trial.Run() == nil {
			return way
		}
	}
	if os.Getenv("TWODIP_ALL") == "1" {
		t.Fatal("no small disk can be mounted here, neither with unshare -m nor with unshare -rm")
	}
	t.Skip("no small disk can be mounted here: a full and a read-only disk are not tried")
	return nil
}

// onDisk runs a shell script beside a small disk that holds a copy of the wall,
// in the folder "disk", and gives what it said and what is on the disk after.
func onDisk(t *testing.T, way []string, wall, script string) (said string, left map[string]string) {
	t.Helper()
	dir := t.TempDir()
	kept := filepath.Join(dir, "kept")
	for _, d := range []string{"disk", "kept"} {
		require.NoError(t, os.Mkdir(filepath.Join(dir, d), 0o755))
	}
	script = "set -e; mount -t tmpfs -o size=4m none disk; cp -pr '" + wall + "/.' disk; " + script + "; rm -f disk/filler; cp -pr disk/. kept"
	c := exec.Command(way[0], append(way[1:], "sh", "-c", script)...)
	c.Dir = dir
	out, err := c.CombinedOutput()
	require.NoError(t, err, "%s", out)
	return string(out), hashes(t, kept)
}

// writer is a command that writes into a wall, with a wall that is ready for it.
type writer struct {
	killing
	file string // the first it cannot write, as its error says it
}

// kept are the writers, made once for all tests: each works on a copy of the
// walls, which are never written to.
var kept struct {
	sync.Mutex
	all []writer
}

func writers(t *testing.T) []writer {
	t.Helper()
	kept.Lock()
	defer kept.Unlock()
	if kept.all == nil {
		all := makeWriters(t)
		for i, w := range all {
			all[i].wall = filepath.Join(forAllTests, w.args[0])
			require.NoError(t, os.Rename(w.wall, all[i].wall))
		}
		kept.all = all
	}
	return slices.Clone(kept.all)
}

func makeWriters(t *testing.T) []writer {
	t.Helper()
	dir := smallWall(t, 3, map[string]string{"tiles/new rows.csv": "piece,date,first\nx,2026-03-02,QM\n"})
	var all []writer
	add := func(file string, args ...string) {
		k := killing{args: args, wall: copyWall(t, dir), before: hashes(t, dir)}
		done := copyWall(t, dir)
		require.NoError(t, os.Symlink(done, filepath.Join(filepath.Dir(done), "disk")))
		finish(t, filepath.Dir(done), append(args, "--wall", "disk")...)
		k.after = hashes(t, done)
		all = append(all, writer{k, "disk/" + file})
	}
	finish(t, dir, "plan")
	put(t, dir, "content/glazes.csv", demoLines(t, "content/glazes.csv", 5))
	add("tiles/plan.csv", "plan")
	add("build/print/labels.pdf", "print")
	photograph(t, dir, 1, "1.jpg")
	for _, args := range []string{"measure", "print", "build"} {
		finish(t, dir, args)
	}
	photograph(t, dir, 3, "1.jpg")
	add("build/pictures/1-1280.jpg", "measure")
	finish(t, dir, "measure")
	add("build/site", "build")
	add("tiles/log.csv", "log", "disk/tiles/new rows.csv")
	return all
}

// On a disk that is full to the last byte every command says so in one
// sentence, ends with 1, and leaves every file as it was; with room again, the
// next run completes.
func TestDiskFull(t *testing.T) {
	t.Parallel()
	way := ownMounts(t)
	for _, w := range writers(t) {
		t.Run(w.args[0], func(t *testing.T) {
			run := quoted(w.args) + " --wall disk"
			before := hashes(t, w.wall)
			said, left := onDisk(t, way, w.wall, "cat /dev/zero 2>/dev/null >disk/filler || true; "+run+" 2>said >/dev/null && exit 9 || test $? = 1; cat said")
			assert.Regexp(t, "^("+w.file+"|disk/earlier/[^:]*): the disk is full; what was there before is still there; make room and run this again\n$", said)
			assert.Empty(t, differences(before, left), "files that are not as before")
			for _, room := range []string{"4k", "12k", "32k", "64k", "120k", "200k"} {
				said, left := onDisk(t, way, w.wall, "cat /dev/zero 2>/dev/null >disk/filler || true; truncate -s -"+room+" disk/filler; "+run+" >/dev/null 2>&1 && echo finished || true")
				w.judge(t, "", left)
				if said != "" { // what says that it is done has left nothing out
					assert.Empty(t, differences(w.after, left), "%s of room", room)
				}
			}
			_, left = onDisk(t, way, w.wall, "cat /dev/zero 2>/dev/null >disk/filler || true; "+run+" >/dev/null 2>&1 && exit 9 || rm disk/filler; "+run)
			assert.Empty(t, differences(w.after, left), "with room again, the next run does not come to the same end")
		})
	}
}

func quoted(args []string) string {
	return "twodip '" + strings.Join(args, "' '") + "'"
}
