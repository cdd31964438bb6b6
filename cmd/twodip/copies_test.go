package main

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// What shared folders leave behind, and files of a teacher that only look like it.
var (
	secondVersions = []string{
		"wall (1).yaml", "wall (conflicted copy 2026-02-03).yaml",
		"content/glazes (1).csv", "content/glazes 2.csv", "content/Copy of glazes.csv", "content/glazes - Copy.csv", "content/Kopie von glazes.csv",
		"content/safety (1).md", "content/safety (Mo's conflicted copy).md",
		"tiles/measured-DESKTOP.csv", "tiles/measured-STUDIO-PC-2.csv", "tiles/by-hand (1).csv",
		"tiles/log (Konflikt 2026-02-03).csv", "tiles/batches [2].csv", "tiles/loads.conflict-20260203.csv", "tiles/Log (2).CSV",
	}
	ownFiles = []string{
		"wall-notes.yaml", "content/glazes-2024.csv", "content/glazes old.csv", "content/safety 2.md", "content/copying.md",
		"tiles/logbook.csv", "tiles/plan-backup.csv", "tiles/old plan.csv", "tiles/measured.txt",
	}
)

// Every second version is said once, by check and by the commands that would
// otherwise go on as if it were not there; none is read, and none is touched.
func TestSecondVersionsOfAFileAreSaidAndNotRead(t *testing.T) {
	dir := smallWall(t, 3, nil)
	finish(t, dir, "plan")
	for _, name := range append(secondVersions, ownFiles...) {
		of, _, _ := strings.Cut(filepath.Base(name), ".")
		text := "# Page\n"
		switch {
		case strings.HasSuffix(name, ".yaml"):
			text = "name: Read by mistake\n"
		case !strings.HasSuffix(name, ".md"):
			text = "code,name,first,tile\nZZ,Read by mistake,ZZ,77\n"
		}
		put(t, dir, name, text+"\n"+of)
	}
	before := hashes(t, dir)
	status, out, errs := twodip("check", "--wall", dir)
	assert.Equal(t, 1, status)
	assert.Contains(t, out, fmt.Sprintf(": %d problems", len(secondVersions)))
	for _, name := range secondVersions {
		assert.Equal(t, 1, strings.Count(errs, name+": looks like a second version of "), name)
	}
	for _, name := range ownFiles {
		assert.NotContains(t, errs, name+":", name)
	}
	assert.Contains(t, errs, "take its rows in with: twodip log \"tiles/log (Konflikt 2026-02-03).csv\"; then move it out of the wall")
	for _, command := range []string{"plan", "log", "trace", "build"} {
		status, _, errs := twodip(command, "--wall", dir)
		assert.Equal(t, 0, status, errs)
		assert.Equal(t, len(secondVersions), strings.Count(errs, "hint: "), "%s: %s", command, errs)
	}
	tilesNow, err := record.ReadTiles(folder.At(dir))
	require.NoError(t, err)
	assert.Len(t, tilesNow, 9)
	assert.NoFileExists(t, filepath.Join(dir, "build/site/page/safety-1.html"))
	assert.FileExists(t, filepath.Join(dir, "build/site/page/safety-2.html"))
	for name, sum := range hashes(t, dir) {
		if !strings.HasPrefix(name, "build/") {
			assert.Equal(t, before[name], sum, name)
		}
	}
}

// With two plans, each may have given the same number: nothing goes on.
func TestWithTwoPlansNothingGoesOn(t *testing.T) {
	for _, name := range []string{"plan (conflicted copy).csv", "plan 2.csv", "plan (1).csv", "plan-DESKTOP.csv"} {
		dir := smallWall(t, 3, nil)
		finish(t, dir, "plan")
		put(t, dir, "tiles/"+name, "tile,first,second,status\n1,FG,,fired\n")
		before := hashes(t, dir)
		for _, command := range []string{"plan", "print", "measure", "build", "log", "check"} {
			status, _, errs := twodip(command, "--wall", dir)
			assert.Equal(t, 1, status, command)
			assert.Equal(t, "tiles/"+name+": looks like a second version of tiles/plan.csv, as a shared folder leaves it when two computers change one file; "+
				"compare the two, keep what is right in plan.csv, and move this one out of the wall\n", errs, command)
		}
		assert.Empty(t, differences(before, hashes(t, dir)), name)
	}
}
