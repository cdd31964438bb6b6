package record

import (
	"bufio"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/natefinch/atomic"
)

// TempPrefix begins the name of a file or folder that is being written. One
// that a crash left behind is swept away by the next Lock.
const TempPrefix = ".twodip-writing-"

// WriteFile writes a file whole or not at all: into a temporary file beside
// it, onto the disk, then in its place. Missing folders are made. An error is
// tiles.Problems and says whether the disk is full, the folder read-only or
// the file open elsewhere; what was there before is then still there.
func WriteFile(path string, fill func(io.Writer) error) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return Explain(path, err)
	}
	f, err := os.CreateTemp(filepath.Dir(path), TempPrefix)
	if err != nil {
		return Explain(path, err)
	}
	defer os.Remove(f.Name()) // finds nothing once the file is in its place
	if err := fillAndSync(f, path, fill); err != nil {
		return Explain(path, err)
	}
	if err := atomic.ReplaceFile(f.Name(), path); err != nil {
		return Explain(path, err)
	}
	syncFolder(filepath.Dir(path))
	return nil
}

// WriteBytes writes a file of those bytes, whole or not at all.
func WriteBytes(path string, data []byte) error {
	return WriteFile(path, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}

// fillAndSync leaves f closed and on the disk, with the mode of the file it replaces.
func fillAndSync(f *os.File, path string, fill func(io.Writer) error) error {
	defer f.Close()
	w := bufio.NewWriterSize(f, 64<<10)
	if err := fill(w); err != nil {
		return err
	}
	if err := w.Flush(); err != nil {
		return err
	}
	mode := os.FileMode(0o644)
	if old, err := os.Stat(path); err == nil {
		mode = old.Mode().Perm()
	}
	if err := f.Chmod(mode); err != nil && runtime.GOOS != "windows" {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	return f.Close()
}

// syncFolder makes the new name itself last through a power cut. Windows and
// some network folders cannot; the file is whole there all the same.
func syncFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		d.Close()
	}
}

// AsideSuffix ends the name, begun with TempPrefix, of a whole folder that was
// moved aside and waits to be put back. It is no rest of a crash.
const AsideSuffix = "-before"

// sweep removes what a crash left half-written. Only the holder of the lock may.
func sweep(dir string) {
	for _, folder := range []string{
		".", "content", "themes", "themes/script", "themes/style", "tiles", "tiles/photos",
		"build", "build/contact", "build/cache", "build/pictures", "build/print",
	} {
		entries, _ := os.ReadDir(filepath.Join(dir, filepath.FromSlash(folder)))
		for _, e := range entries {
			if strings.HasPrefix(e.Name(), TempPrefix) && !strings.HasSuffix(e.Name(), AsideSuffix) {
				_ = os.RemoveAll(filepath.Join(dir, filepath.FromSlash(folder), e.Name()))
			}
		}
	}
}
