package folder

import (
	"os"
	"syscall"

	"github.com/gofrs/flock"

	"github.com/twodip/twodip/tiles"
)

// LockFile is held, not merely present, while a command writes into the wall:
// the system lets go of it when the command ends, however it ends.
const LockFile = ".twodip.lock"

// Lock takes the wall for one command that writes. A second one is told so at
// once. Calling release twice does no harm.
func (f Folder) Lock() (release func(), err error) {
	if err := f.isThere(); err != nil {
		return nil, err
	}
	if info, err := os.Lstat(f.Path(LockFile)); err == nil && !info.Mode().IsRegular() {
		return nil, explainRead(LockFile, errNotAFile) // a pipe would be waited for
	}
	// Everybody who shares the folder may take the lock, not only who was first.
	lock := flock.New(f.Path(LockFile), flock.SetPermissions(0o644))
	got, err := drive.lock(lock)
	switch {
	case err != nil && cannot(err, syscall.ENOLCK):
		_ = lock.Close()
		note(f.dir, lacksLocks)
		if release, err = f.own(); err != nil {
			return nil, err
		}
		f.sweep()
		return release, nil
	case err != nil:
		return nil, Explain(f.Called(), err)
	case got && f.Has(OwnerFile): // of a computer to which the same drive lends no locks
		_ = lock.Unlock()
		return nil, f.owned()
	case !got:
		return nil, tiles.Problems{{File: f.Called(), What: "another twodip command is at work on this wall",
			Do: "wait until it has ended, then run this again"}}
	}
	f.sweep()
	return func() { _ = lock.Unlock() }, nil
}

// isThere says of a wrong path what it is.
func (f Folder) isThere() error {
	info, err := os.Stat(f.dir)
	if err != nil {
		return explainRead(f.dir, err)
	}
	if !info.IsDir() {
		return tiles.Problems{{File: f.Called(), What: "is a file, not a wall's folder", Do: "name the folder that holds wall.yaml"}}
	}
	return nil
}
