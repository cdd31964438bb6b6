package folder

import (
	"errors"
	"os"
	"syscall"
	"time"

	"github.com/gofrs/flock"

	"github.com/twodip/twodip/tiles"
)

// DeskFile is held for the moment in which rows from phones are put down or taken
// up into the log, and no longer: who has it waits for nobody. A command that
// needs it as well as the wall takes the wall first.
const DeskFile = ".twodip.desk"

// ErrNoLocks says that the drive cannot lock files, so that only the wall itself
// can be taken.
var ErrNoLocks = errors.New("the drive cannot lock files")

// Desk takes the desk, waiting for it where another has it. Calling release
// twice does no harm.
func (f Folder) Desk(patience time.Duration) (release func(), err error) {
	if err := f.isThere(); err != nil {
		return nil, err
	}
	if info, err := os.Lstat(f.Path(DeskFile)); err == nil && !info.Mode().IsRegular() {
		return nil, explainRead(DeskFile, errNotAFile) // a pipe would be waited for
	}
	lock := flock.New(f.Path(DeskFile), flock.SetPermissions(0o644))
	for until := time.Now().Add(patience); ; time.Sleep(5 * time.Millisecond) {
		got, err := drive.lock(lock)
		switch {
		case err != nil && cannot(err, syscall.ENOLCK):
			_ = lock.Close()
			return nil, ErrNoLocks
		case err != nil:
			return nil, Explain(f.Called(), err)
		case got:
			return func() { _ = lock.Unlock() }, nil
		case time.Now().After(until):
			return nil, tiles.Problems{{File: f.Called(), What: "rows from phones are just being written down", Do: "run this again in a moment"}}
		}
	}
}
