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

// tempPrefix marks a file that is being written. One that a crash left behind
// is swept away by the next Lock.
const tempPrefix = ".twodip-writing-"

// WriteFile writes a file whole or not at all: into a temporary file beside
// it, onto the disk, then in its place. Missing folders are made. An error is
// tiles.Problems and says whether the disk is full, the folder read-only or
// the file open elsewhere; what was there before is then still there.
func WriteFile(path string, fill func(io.Writer) error) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return explain(path, err)
	}
	f, err := os.CreateTemp(filepath.Dir(path), tempPrefix)
	if err != nil {
		return explain(path, err)
	}
	defer os.Remove(f.Name()) // finds nothing once the file is in its place
	if err := fillAndSync(f, path, fill); err != nil {
		return explain(path, err)
	}
	if err := atomic.ReplaceFile(f.Name(), path); err != nil {
		return explain(path, err)
	}
	syncFolder(filepath.Dir(path))
	return nil
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

// sweep removes what a crash left half-written. Only the holder of the lock may.
func sweep(dir string) {
	for _, folder := range []string{".", "content", "tiles", "tiles/photos", "build", "build/print", "build/pictures", "build/site"} {
		left, _ := filepath.Glob(filepath.Join(escapeGlob(dir), filepath.FromSlash(folder), tempPrefix+"*"))
		for _, path := range left {
			_ = os.Remove(path)
		}
	}
}

// escapeGlob lets a wall live in a folder called "glazes [2026]".
func escapeGlob(dir string) string {
	if runtime.GOOS == "windows" {
		return dir // no escapes there; such a folder is not swept
	}
	return strings.NewReplacer(`\`, `\\`, `*`, `\*`, `?`, `\?`, `[`, `\[`).Replace(dir)
}
