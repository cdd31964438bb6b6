package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"syscall"

	"github.com/twodip/twodip/tiles"
)

// reason is what stopped a file, and what to do about it.
type reason struct{ what, do string }

var (
	diskFull   = reason{"the disk is full; what was there before is still there", "make room and run this again"}
	readOnly   = reason{"the disk can only be read", "copy the wall's folder to a disk you can write to"}
	openElse   = reason{"the file is open in another program", "close it there and run this again"}
	notWritten = reason{"you may not write here", "ask for the right to write in this folder, or copy the wall to a folder of your own"}
	deniedWin  = reason{"you may not write here, or the file is open in another program", "close it there, or ask for the right to write in this folder"}
	notRead    = reason{"you may not read this file", "ask its owner for the right to read it"}
	notThere   = reason{"is not there", ""}
	notAFile   = reason{"is not a file", "move it away"}
	link       = reason{"is a link", "put the file itself here"}
	linkOut    = reason{"is a link to a place outside the wall's folder", "put the file itself here"}
	protected  = reason{"is write-protected and was left as it was", "allow writing to it, then run this again"}
	nameLong   = reason{"the name is too long for this disk", "shorten it, or the names of the folders it lies in"}
)

// unixReasons are by POSIX error (IEEE Std 1003.1-2024, errno.h; EDQUOT there too).
var unixReasons = map[syscall.Errno]reason{
	syscall.ENOSPC:       diskFull,
	syscall.EDQUOT:       diskFull,
	syscall.EROFS:        readOnly,
	syscall.EACCES:       notWritten,
	syscall.EPERM:        notWritten,
	syscall.ETXTBSY:      openElse,
	syscall.ENOENT:       notThere,
	syscall.ENAMETOOLONG: nameLong,
	syscall.EISDIR:       {"is a folder where a file should be", "move it away"},
	syscall.ELOOP:        {"is a link that leads back to itself", "put the file itself here"},
	syscall.ENOTDIR:      {"a file stands where a folder should be", "move it away"},
	syscall.EIO:          {"the disk does not answer as it should", "copy the wall to another disk"},
}

// windowsReasons are by number in Windows's list of system error codes, which
// mean something else on other systems.
var windowsReasons = map[syscall.Errno]reason{
	2:    notThere,   // ERROR_FILE_NOT_FOUND
	3:    notThere,   // ERROR_PATH_NOT_FOUND
	5:    deniedWin,  // ERROR_ACCESS_DENIED
	19:   readOnly,   // ERROR_WRITE_PROTECT
	32:   openElse,   // ERROR_SHARING_VIOLATION
	33:   openElse,   // ERROR_LOCK_VIOLATION
	39:   diskFull,   // ERROR_HANDLE_DISK_FULL
	112:  diskFull,   // ERROR_DISK_FULL
	206:  nameLong,   // ERROR_FILENAME_EXCED_RANGE
	1224: openElse,   // ERROR_USER_MAPPED_FILE
	1295: diskFull,   // ERROR_DISK_QUOTA_EXCEEDED
	1314: notWritten, // ERROR_PRIVILEGE_NOT_HELD
}

// Explain says what stopped a file from being written, as tiles.Problems. An
// error that already is a problem passes through.
func Explain(path string, err error) error { return explain(path, err, reasonFor) }

// explainRead says what stopped a file from being read.
func explainRead(path string, err error) error { return explain(path, err, reasonNotRead) }

func reasonNotRead(system string, err error) reason {
	var large errLarge
	switch {
	case errors.Is(err, fs.ErrPermission):
		return notRead
	case errors.Is(err, errNotAFile):
		return notAFile
	case errors.Is(err, errOutside) || strings.Contains(err.Error(), "escapes"):
		return linkOut
	case errors.Is(err, errLink):
		return link
	case errors.As(err, &large):
		return reason{fmt.Sprintf("is larger than %d MB", large>>20), "check that it is the file you mean"}
	}
	return reasonFor(system, err)
}

func explain(path string, err error, why func(string, error) reason) error {
	var ps tiles.Problems
	var p tiles.Problem
	if err == nil || errors.As(err, &ps) || errors.As(err, &p) {
		return err
	}
	r := why(runtime.GOOS, err)
	return failure{tiles.Problems{{File: filepath.ToSlash(path), What: r.what, Do: r.do}}, err}
}

// reasonFor finds what to say of an error of a system ("windows" or another).
func reasonFor(system string, err error) reason {
	var n syscall.Errno
	known := unixReasons
	if system == "windows" {
		known = windowsReasons
	}
	if errors.As(err, &n) {
		if r, ok := known[n]; ok {
			return r
		}
	}
	switch {
	case errors.Is(err, fs.ErrPermission):
		return notWritten
	case errors.Is(err, fs.ErrNotExist):
		return notThere
	case errors.Is(err, errOutside):
		return linkOut
	case errors.Is(err, errLink):
		return link
	case errors.Is(err, errProtected):
		return protected
	}
	return reason{bare(err), ""}
}

// StopsAll says that what stopped this file would stop any other: the disk is
// full or read-only, or the folder is not ours.
func StopsAll(err error) bool {
	var ps tiles.Problems
	return errors.As(err, &ps) && slices.ContainsFunc(ps, func(p tiles.Problem) bool {
		return p.What == diskFull.what || p.What == readOnly.what || p.What == notWritten.what
	})
}

// bare is the error without the paths, which the problem already says.
func bare(err error) string {
	var p *fs.PathError
	var l *os.LinkError
	switch {
	case errors.As(err, &p):
		return p.Err.Error()
	case errors.As(err, &l):
		return l.Err.Error()
	}
	return err.Error()
}

// ExplainAny is Explain for an error of the system that says its own path;
// other errors pass through. A file of a folder that is made under another name
// first is said as that folder.
func ExplainAny(err error) error {
	var n syscall.Errno
	if !errors.As(err, &n) {
		return err
	}
	var p *fs.PathError
	var l *os.LinkError
	switch {
	case errors.As(err, &p):
		return Explain(realName(p.Path), err)
	case errors.As(err, &l):
		return Explain(realName(l.New), err)
	}
	return err
}

// realName is what a path will be called when it is whole, from the current
// folder where it lies below it.
func realName(path string) string {
	if here, err := os.Getwd(); err == nil {
		if rel, err := filepath.Rel(here, path); err == nil && filepath.IsLocal(rel) {
			path = rel
		}
	}
	before, after, unfinished := strings.Cut(path, TempPrefix)
	if !unfinished {
		return path
	}
	name, _, _ := strings.Cut(filepath.ToSlash(after), "/")
	return before + strings.TrimSuffix(name, AsideSuffix)
}
