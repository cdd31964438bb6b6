package folder

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"sync"
	"syscall"

	"github.com/gofrs/flock"
)

// drive is what is asked of the disk that a wall lies on. Drives in a network
// and those that other computers keep in step cannot do all of it; a test puts
// such a one in its place.
var drive = struct {
	lock func(*flock.Flock) (bool, error)
	mode func(*os.File, fs.FileMode) error
	sync func(*os.File) error
}{(*flock.Flock).TryLock, (*os.File).Chmod, (*os.File).Sync}

// What a drive may lack, as it is said.
const (
	lacksLocks = "the drive cannot lock files, so " + OwnerFile + " in the wall's folder says who is at work: let one computer at a time write"
	lacksModes = "the drive keeps no rights of single files: who may read them is for the drive to say"
	lacksSync  = "the drive does not say when a file is safely stored: wait a little before you disconnect it"
)

// lacking is what was found lacking since the program began, by folder.
var lacking sync.Map

type lack struct{ dir, what string }

func note(dir, what string) { lacking.Store(lack{filepath.Clean(dir), what}, true) }

// Lacks says what the drive that the wall lies on cannot do, as far as it was
// asked for it.
func (f Folder) Lacks() (said []string) {
	for _, what := range []string{lacksLocks, lacksModes, lacksSync} {
		if _, found := lacking.Load(lack{filepath.Clean(f.dir), what}); found {
			said = append(said, what)
		}
	}
	return said
}

// cannot tells a drive that cannot do a thing from one that refuses it now.
func cannot(err error, also ...error) bool {
	for _, one := range append(also, errors.ErrUnsupported) {
		if errors.Is(err, one) {
			return true
		}
	}
	return false
}

// setMode gives a file that we made its rights, where the drive has such.
func setMode(dir string, file *os.File, mode fs.FileMode) error {
	err := drive.mode(file, mode)
	if err == nil || runtime.GOOS == "windows" {
		return nil
	}
	if cannot(err, syscall.EPERM, syscall.EINVAL) {
		note(dir, lacksModes)
		return nil
	}
	return err
}

// store brings a file onto the disk, where the drive can say that it is there.
func store(dir string, file *os.File) error {
	err := drive.sync(file)
	if err != nil && cannot(err, syscall.EINVAL) {
		note(dir, lacksSync)
		return nil
	}
	return err
}
