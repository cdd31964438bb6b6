package record

import (
	"os"
	"path/filepath"

	"github.com/gofrs/flock"

	"github.com/twodip/twodip/tiles"
)

// LockFile is held, not merely present, while a command writes into the wall:
// the system lets go of it when the command ends, however it ends.
const LockFile = ".twodip.lock"

// Lock takes the wall for one command that writes. A second one is told so at
// once, as tiles.Problems. Calling release twice does no harm.
func Lock(dir string) (release func(), err error) {
	if err := needFolder(dir); err != nil {
		return nil, err
	}
	// Everybody who shares the folder may take the lock, not only who was first.
	lock := flock.New(filepath.Join(dir, LockFile), flock.SetPermissions(0o644))
	got, err := lock.TryLock()
	if err != nil {
		return nil, Explain(called(dir), err)
	}
	if !got {
		return nil, tiles.Problems{{File: called(dir), What: "another twodip command is at work on this wall",
			Do: "wait until it has ended, then run this again"}}
	}
	sweep(dir)
	return func() { _ = lock.Unlock() }, nil
}

// called is the folder as a person knows it: nobody calls it ".".
func called(dir string) string {
	if full, err := filepath.Abs(dir); err == nil && filepath.Clean(dir) == "." {
		dir = filepath.Base(full)
	}
	return filepath.ToSlash(dir)
}

func needFolder(dir string) error {
	info, err := os.Stat(dir)
	if err != nil {
		return explainRead(dir, err)
	}
	if !info.IsDir() {
		return tiles.Problems{{File: filepath.ToSlash(dir), What: "is a file, not a wall's folder", Do: "name the folder that holds wall.yaml"}}
	}
	return nil
}
