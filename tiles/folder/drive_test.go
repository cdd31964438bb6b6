package folder

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/gofrs/flock"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// poorDrive makes the drive answer everything beyond reading and writing so.
func poorDrive(t *testing.T, lock, mode, sync error) {
	before := drive
	t.Cleanup(func() { drive = before })
	drive.lock = func(l *flock.Flock) (bool, error) {
		if lock != nil {
			return false, lock
		}
		return l.TryLock()
	}
	drive.mode = func(*os.File, fs.FileMode) error { return mode }
	drive.sync = func(*os.File) error { return sync }
}

// What drives in networks answer to flock, fchmod and fsync (their manual pages
// in Linux: ENOLCK, EOPNOTSUPP, ENOSYS; EPERM; EINVAL): everything is written
// all the same, and what is lacking is said.
func TestDrivesThatCannotDoAll(t *testing.T) {
	for _, cannot := range []error{syscall.ENOLCK, syscall.EOPNOTSUPP, syscall.ENOSYS} {
		f := At(t.TempDir())
		assert.Empty(t, f.Lacks())
		poorDrive(t, cannot, syscall.EPERM, syscall.EINVAL)
		release, err := f.Lock()
		require.NoError(t, err)
		require.NoError(t, f.WriteBytes("tiles/plan.csv", []byte("1")))
		assert.Equal(t, "1", get(t, f.Dir(), "tiles/plan.csv"))
		assert.Equal(t, []string{lacksLocks, lacksModes, lacksSync}, f.Lacks())

		_, err = f.Lock()
		assert.ErrorContains(t, err, "another twodip command is at work on this wall, on the computer ")
		assert.ErrorContains(t, err, "; wait until it has ended; if none is at work there, remove .twodip.owner from the wall's folder")
		poorDrive(t, nil, nil, nil)
		_, err = f.Lock()
		assert.ErrorContains(t, err, "another twodip command is at work on this wall", "from a computer that can lock")
		release()
		again, err := f.Lock()
		require.NoError(t, err)
		release() // for the second time
		again()
	}
	f := At(t.TempDir())
	poorDrive(t, syscall.EIO, syscall.EIO, syscall.EIO)
	_, err := f.Lock()
	assert.ErrorContains(t, err, "the disk does not answer as it should")
	assert.ErrorContains(t, f.WriteBytes("a", nil), "the disk does not answer as it should")
	assert.Empty(t, f.Lacks())
}

// A command that was cut off left its file: that is said, with what to do.
func TestAnOwnerThatIsNoMore(t *testing.T) {
	f := At(t.TempDir())
	host, err := os.Hostname()
	require.NoError(t, err)
	for owner, says := range map[string]string{
		host + "\n4194999\n2026-03-14 10:00 UTC\n": "a twodip command of 2026-03-14 10:00 UTC was cut off and left .twodip.owner behind; remove that file from the wall's folder, then run this again",
		"studio-pc\n7\n2026-03-14 10:00 UTC\n":     "another twodip command is at work on this wall, on the computer studio-pc since 2026-03-14 10:00 UTC; wait",
		"":                                         ".twodip.owner says that another twodip command is at work on this wall; wait until it has ended; if none is, remove that file",
	} {
		put(t, f.Dir(), OwnerFile, owner)
		_, err := f.Lock()
		assert.ErrorContains(t, err, says)
	}
	require.NoError(t, os.Remove(f.Path(OwnerFile)))
	release, err := f.Lock()
	require.NoError(t, err)
	release()
}

// A table that is a link to another file of the wall is read and written there.
func TestATableThatIsALink(t *testing.T) {
	f := At(t.TempDir())
	outside := filepath.Join(t.TempDir(), "log.csv")
	require.NoError(t, os.WriteFile(outside, []byte("theirs"), 0o644))
	put(t, f.Dir(), "shared/log.csv", "piece\n")
	put(t, f.Dir(), "tiles/plan.csv", "")
	require.NoError(t, os.Chmod(f.Path("shared/log.csv"), 0o664))
	for name, to := range map[string]string{
		"log.csv": "../shared/log.csv", "twice.csv": "log.csv", "out.csv": outside, "up.csv": "../../x.csv", "self.csv": "self.csv", "none.csv": "../shared/none.csv", "page.md": "../shared/log.csv",
	} {
		require.NoError(t, os.Symlink(to, f.Path("tiles/"+name)))
	}
	for _, name := range []string{"tiles/log.csv", "tiles/twice.csv"} {
		require.NoError(t, f.WriteBytes(name, []byte("piece\n"+name+"\n")))
		data, err := f.Read(name, 100)
		require.NoError(t, err)
		assert.Equal(t, "piece\n"+name+"\n", string(data))
		assert.Equal(t, string(data), get(t, f.Dir(), "shared/log.csv"))
		info, err := os.Lstat(f.Path(name))
		require.NoError(t, err)
		assert.NotZero(t, info.Mode()&fs.ModeSymlink)
	}
	info, err := os.Stat(f.Path("shared/log.csv"))
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o664), info.Mode().Perm())
	for name, says := range map[string]string{
		"out.csv": "is a link to a place outside the wall's folder; put the file itself here",
		"up.csv":  "is a link to a place outside the wall's folder; put the file itself here",
		"page.md": "is a link; put the file itself here",
	} {
		assert.ErrorContains(t, f.WriteBytes("tiles/"+name, []byte("ours")), says, name)
		_, err := f.Read("tiles/"+name, 100)
		assert.ErrorContains(t, err, says, name)
	}
	assert.Error(t, f.WriteBytes("tiles/self.csv", nil))
	_, err = f.Read("tiles/none.csv", 100)
	assert.ErrorIs(t, err, fs.ErrNotExist)
	data, err := os.ReadFile(outside)
	require.NoError(t, err)
	assert.Equal(t, "theirs", string(data))
}

func TestAWriteProtectedFileIsLeft(t *testing.T) {
	f := At(t.TempDir())
	put(t, f.Dir(), "tiles/log.csv", "mine")
	require.NoError(t, os.Chmod(f.Path("tiles/log.csv"), 0o444))
	err := f.WriteBytes("tiles/log.csv", []byte("other"))
	require.Error(t, err)
	assert.True(t, strings.HasSuffix(err.Error(), "tiles/log.csv: is write-protected and was left as it was; allow writing to it, then run this again"), err)
	assert.Equal(t, "mine", get(t, f.Dir(), "tiles/log.csv"))
}
