package earlier

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/folder"
)

var day = time.Date(2026, 11, 12, 16, 20, 0, 0, time.Local)

// wallWith is a wall that holds these files.
func wallWith(t *testing.T, files map[string]string) folder.Folder {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		put(t, folder.At(dir), name, text)
	}
	return folder.At(dir)
}

func put(t *testing.T, dir folder.Folder, name, text string) {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(dir.Path(name)), 0o755))
	require.NoError(t, os.WriteFile(dir.Path(name), []byte(text), 0o644))
}

func list(t *testing.T, dir folder.Folder) []Version {
	t.Helper()
	all, err := List(dir)
	require.NoError(t, err)
	return all
}

// TestKeepsWhatChanged: a version a change, none without one, named so that a
// person finds it in the folder and a spreadsheet opens it.
func TestKeepsWhatChanged(t *testing.T) {
	dir := wallWith(t, map[string]string{"tiles/plan.csv": "one", "wall.yaml": "name: x"})
	require.NoError(t, Keep(dir, day))
	require.NoError(t, Keep(dir, day.Add(time.Hour)), "nothing changed")
	put(t, dir, "tiles/plan.csv", "two")
	require.NoError(t, Keep(dir, day.Add(2*time.Hour)))

	versions := Of(list(t, dir), "tiles/plan.csv")
	require.Len(t, versions, 2)
	require.Equal(t, "earlier/tiles/plan 0002 2026-11-12 18.20 3fc4ccfe.csv", versions[0].Saved, "sha256sum says 3fc4ccfe of «two»")
	require.True(t, day.Equal(versions[1].Kept))
	data, err := versions[1].Read(dir)
	require.NoError(t, err)
	require.Equal(t, "one", string(data))
	require.Len(t, Of(list(t, dir), "wall.yaml"), 1)
}

// TestRestoreCanBeUndone: what stood in the file when an earlier version came
// back, typed by hand and never seen by a command, is a version itself.
func TestRestoreCanBeUndone(t *testing.T) {
	dir := wallWith(t, map[string]string{"tiles/log.csv": "first"})
	require.NoError(t, Keep(dir, day))
	put(t, dir, "tiles/log.csv", "typed for an hour")
	first := list(t, dir)[0]
	require.NoError(t, Restore(dir, first, day))
	data, err := dir.Read("tiles/log.csv", 100)
	require.NoError(t, err)
	require.Equal(t, "first", string(data))

	typed := Of(list(t, dir), "tiles/log.csv")[1]
	require.NoError(t, Restore(dir, typed, day))
	data, err = dir.Read("tiles/log.csv", 100)
	require.NoError(t, err)
	require.Equal(t, "typed for an hour", string(data))
}

// TestADamagedVersionIsNotBroughtBack: its name says what it must hold.
func TestADamagedVersionIsNotBroughtBack(t *testing.T) {
	dir := wallWith(t, map[string]string{"tiles/plan.csv": "one"})
	require.NoError(t, Keep(dir, day))
	v := list(t, dir)[0]
	put(t, dir, v.Saved, "one, but for a bit")
	put(t, dir, "tiles/plan.csv", "now")
	require.ErrorIs(t, Restore(dir, v, day), ErrDamaged)
	data, err := dir.Read("tiles/plan.csv", 100)
	require.NoError(t, err)
	require.Equal(t, "now", string(data))
}

// TestOrderGoesByTurnsNotByTheClock: a laptop whose clock was set back must not
// make an old plan the newest.
func TestOrderGoesByTurnsNotByTheClock(t *testing.T) {
	dir := wallWith(t, map[string]string{"tiles/plan.csv": "one"})
	require.NoError(t, Keep(dir, day))
	put(t, dir, "tiles/plan.csv", "two")
	require.NoError(t, Keep(dir, day.AddDate(-1, 0, 0)))
	data, err := list(t, dir)[0].Read(dir)
	require.NoError(t, err)
	require.Equal(t, "two", string(data))
}

// TestOldVersionsAreThinnedByDay: the newest all stay, older days keep their
// last, and the folder stops growing.
func TestOldVersionsAreThinnedByDay(t *testing.T) {
	dir := wallWith(t, nil)
	const all = 120
	for i := range all {
		put(t, dir, "tiles/plan.csv", fmt.Sprint("version ", i))
		require.NoError(t, Keep(dir, day.Add(time.Duration(i)*12*time.Hour)))
	}
	versions := Of(list(t, dir), "tiles/plan.csv")
	require.Len(t, versions, fromDay+1, "the newest beside those that were there before it")
	for i := range newest {
		require.Equal(t, all-i, versions[i].Turn)
	}
	seen := map[string]int{}
	for _, v := range versions[newest+1:] {
		seen[v.Kept.Format(time.DateOnly)]++
		require.Equal(t, 1, seen[v.Kept.Format(time.DateOnly)])
	}
}

// TestOthersFilesInTheFolderStay: a person's own note there is nobody's version.
func TestOthersFilesInTheFolderStay(t *testing.T) {
	dir := wallWith(t, map[string]string{"earlier/tiles/my note.txt": "mine", "earlier/tiles/secret 0001 2026-11-12 16.20 00000000.csv": "x"})
	require.Empty(t, list(t, dir))
	require.NoError(t, Keep(dir, day))
	require.True(t, dir.Has("earlier/tiles/my note.txt"))
}
