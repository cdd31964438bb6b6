package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

// What Windows says by number (its list of system error codes) and other
// systems by name (POSIX), a person is told in words.
func TestAnErrorOfTheSystemIsSaidInWords(t *testing.T) {
	for _, c := range []struct {
		system string
		number syscall.Errno
		want   string
	}{
		{"linux", syscall.ENOSPC, "the disk is full"},
		{"darwin", syscall.EDQUOT, "the disk is full"},
		{"linux", syscall.EROFS, "the disk can only be read"},
		{"linux", syscall.EACCES, "you may not write here"},
		{"linux", syscall.ENAMETOOLONG, "the name is too long for this disk"},
		{"windows", 5, "you may not write here, or the file is open in another program"},
		{"windows", 19, "the disk can only be read"},
		{"windows", 32, "the file is open in another program"},
		{"windows", 33, "the file is open in another program"},
		{"windows", 39, "the disk is full"},
		{"windows", 112, "the disk is full"},
		{"windows", 206, "the name is too long for this disk"},
		{"windows", 1224, "the file is open in another program"},
		{"linux", 32, syscall.EPIPE.Error()}, // the same number, another system
	} {
		err := fmt.Errorf("while writing: %w", &os.LinkError{Op: "rename", Old: "a", New: "b", Err: c.number})
		assert.Contains(t, reasonFor(c.system, err).what, c.want, "%s %d", c.system, c.number)
	}
	assert.Equal(t, "you may not read this file", reasonOfReading(t, fs.ErrPermission))
}

func reasonOfReading(t *testing.T, err error) string {
	var ps tiles.Problems
	require.ErrorAs(t, explainRead("tiles/plan.csv", err), &ps)
	return ps[0].What
}

func TestOnlyErrorsOfTheSystemAreExplained(t *testing.T) {
	own := errors.New("our own")
	assert.Equal(t, own, ExplainAny(own))
	full := &fs.PathError{Op: "write", Path: filepath.Join("wall", "build", TempPrefix+"site", "tile", "7.html"), Err: syscall.ENOSPC}
	assert.ErrorContains(t, ExplainAny(full), "wall/build/site: the disk is full")
	problem := tiles.Problem{File: "x", What: "y"}
	assert.Equal(t, problem, Explain("elsewhere", problem), "a problem is said as it is")
}

// /dev/full is a disk that is always full (Linux).
func TestADeviceThatIsFull(t *testing.T) {
	f, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("there is no /dev/full here")
	}
	defer f.Close()
	_, err = f.WriteString("x")
	assert.EqualError(t, Explain("tiles/plan.csv", err), "tiles/plan.csv: the disk is full; what was there before is still there; make room and run this again")
	assert.True(t, StopsAll(Explain("x", err)))
	assert.False(t, StopsAll(Explain("x", syscall.EISDIR)))
}
