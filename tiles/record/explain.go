package record

import (
	"errors"
	"io/fs"
	"path/filepath"
	"runtime"
	"syscall"

	"github.com/twodip/twodip/tiles"
)

// Numbers of Windows errors, from its list of system error codes. They mean
// something else on other systems.
const (
	windowsSharing  syscall.Errno = 32
	windowsLocked   syscall.Errno = 33
	windowsDiskFull syscall.Errno = 112
)

// explain says what stopped a file from being read or written. An error that
// already is a problem passes through.
func explain(path string, err error) error {
	if err == nil {
		return nil
	}
	var ps tiles.Problems
	var p tiles.Problem
	if errors.As(err, &ps) || errors.As(err, &p) {
		return err
	}
	p = tiles.Problem{File: filepath.ToSlash(path)}
	switch {
	case isOneOf(err, syscall.ENOSPC, syscall.EDQUOT), isWindows(err, windowsDiskFull):
		p.What, p.Do = "the disk is full; the file is as it was before", "make room and run this again"
	case isOneOf(err, syscall.EROFS):
		p.What, p.Do = "the disk can only be read", "copy the wall's folder to a disk you can write to"
	case isWindows(err, windowsSharing, windowsLocked):
		p.What, p.Do = "the file is open in another program", "close it there and run this again"
	case errors.Is(err, fs.ErrPermission):
		p.What, p.Do = "you may not write here, or the file is open in another program", "close it there, or ask for the right to write in this folder"
	case errors.Is(err, fs.ErrNotExist):
		p.What, p.Do = "is not there", ""
	case isOneOf(err, syscall.EISDIR):
		p.What, p.Do = "is a folder where a file should be", "move it away"
	case isOneOf(err, syscall.ENOTDIR):
		p.What, p.Do = "a file stands where a folder should be", "move it away"
	default:
		p.What = reason(err)
	}
	return tiles.Problems{p}
}

func isOneOf(err error, numbers ...syscall.Errno) bool {
	var n syscall.Errno
	if !errors.As(err, &n) {
		return false
	}
	for _, one := range numbers {
		if n == one {
			return true
		}
	}
	return false
}

func isWindows(err error, numbers ...syscall.Errno) bool {
	return runtime.GOOS == "windows" && isOneOf(err, numbers...)
}

// reason is the error without the path, which the problem already says.
func reason(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}
