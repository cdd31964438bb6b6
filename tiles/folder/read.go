package folder

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"github.com/twodip/twodip/tiles"
)

// Why a file is not read, beside what the system says.
var (
	errNotAFile = errors.New("not a file")
	errLink     = errors.New("a link")
	errOutside  = errors.New("a link that leads out of the wall")

	errProtected = errors.New("write-protected")
)

// errLarge is a file larger than what is read of its kind, in bytes.
type errLarge int64

func (limit errLarge) Error() string { return fmt.Sprintf("larger than %d bytes", int64(limit)) }

// Has says that there is a file of that name which can be read.
func (f Folder) Has(name string) bool {
	_, err := f.Info(name)
	return err == nil
}

// Info is a file's size and time.
func (f Folder) Info(name string) (info fs.FileInfo, err error) {
	err = f.look(name, func(root *os.Root, local string) error {
		info, err = root.Stat(local)
		return err
	})
	return info, err
}

// Open opens a file for reading. What reads it holds it to its own limit.
func (f Folder) Open(name string) (file *os.File, err error) {
	err = f.look(name, func(root *os.Root, local string) error {
		file, err = root.Open(local)
		return err
	})
	return file, err
}

// Read reads a file of up to limit bytes whole.
func (f Folder) Read(name string, limit int64) ([]byte, error) {
	file, err := f.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	data, err := readUpTo(file, limit)
	return data, explainRead(name, err)
}

// readUpTo reads all of a file, or nothing where it is larger.
func readUpTo(file *os.File, limit int64) ([]byte, error) {
	info, err := file.Stat()
	if err != nil {
		return nil, err
	}
	if info.Size() > limit {
		return nil, errLarge(limit)
	}
	// It may grow while it is read.
	data := make([]byte, 0, info.Size()+512)
	for {
		n, err := file.Read(data[len(data):cap(data)])
		data = data[:len(data)+n]
		switch {
		case int64(len(data)) > limit:
			return nil, errLarge(limit)
		case err == io.EOF:
			return data, nil
		case err != nil:
			return nil, err
		case len(data) == cap(data):
			data = append(data, 0)[:len(data)]
		}
	}
}

// open takes the wall's folder in hand. A pipe in its place would be waited for.
func (f Folder) open() (*os.Root, error) {
	info, err := os.Stat(f.dir)
	if err != nil {
		return nil, err
	}
	if !info.IsDir() {
		return nil, &fs.PathError{Op: "open", Path: f.dir, Err: syscall.ENOTDIR}
	}
	return os.OpenRoot(f.dir)
}

// look takes a file of the wall in hand once it is known to be one.
func (f Folder) look(name string, take func(root *os.Root, local string) error) error {
	root, err := f.open()
	if err != nil {
		return explainRead(filepath.ToSlash(f.dir), err)
	}
	defer root.Close()
	local, err := follow(root, filepath.FromSlash(name))
	if err != nil {
		return explainRead(name, err)
	}
	if err := isFile(root, local); err != nil {
		return explainRead(name, err)
	}
	return explainRead(name, take(root, local))
}

// isFile makes sure that a name leads to a file by no link: opening a pipe
// would wait for ever.
func isFile(root *os.Root, local string) error {
	if err := noLink(root, local); err != nil {
		return err
	}
	info, err := root.Stat(local)
	switch {
	case err != nil:
		return err
	case info.IsDir():
		return syscall.EISDIR
	case !info.Mode().IsRegular():
		return errNotAFile
	}
	return nil
}

// noLink refuses a name with a link on its way. One that ends somewhere below
// its own folder of photos may be followed: a photo is shown twice, no more.
func noLink(root *os.Root, local string) error {
	for i := range len(local) + 1 {
		if i < len(local) && !os.IsPathSeparator(local[i]) {
			continue
		}
		info, err := root.Lstat(local[:i])
		if err != nil {
			return err
		}
		if info.Mode()&fs.ModeSymlink == 0 {
			continue
		}
		if _, err := root.Stat(local); err != nil && strings.Contains(err.Error(), "escapes") {
			return errOutside
		}
		return errLink
	}
	return nil
}

// Given opens a file that a person has named, wherever it lies.
func Given(path string) (*os.File, error) {
	shown := filepath.ToSlash(path)
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, explainRead(shown, err)
	case info.IsDir():
		return nil, tiles.Problem{File: shown, What: "is a folder", Do: "name a file in it"}
	case !info.Mode().IsRegular():
		return nil, tiles.Problem{File: shown, What: "is not a file", Do: "name a file"}
	}
	file, err := os.Open(path)
	return file, explainRead(shown, err)
}

// failure is a problem of the system's making that still knows its cause.
type failure struct {
	tiles.Problems
	cause error
}

func (f failure) Unwrap() []error { return []error{f.Problems, f.cause} }
