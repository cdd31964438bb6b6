package folder

import (
	"bufio"
	"crypto/rand"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// TempPrefix begins the name of a file or folder that is being written. One
// that a crash left behind is swept away by the next Lock.
const TempPrefix = ".twodip-writing-"

// Write writes a file whole or not at all: into a temporary file beside it,
// onto the disk, then in its place. Missing folders are made. An error says
// whether the disk is full, the folder read-only or the file open elsewhere;
// what was there before is then still there.
func (f Folder) Write(name string, fill func(io.Writer) error) error {
	root, err := f.open()
	if err != nil {
		return Explain(f.Shown(name), err)
	}
	defer root.Close()
	return Explain(f.Shown(name), write(root, filepath.FromSlash(name), fill))
}

// WriteBytes writes a file of those bytes, whole or not at all.
func (f Folder) WriteBytes(name string, data []byte) error {
	return f.Write(name, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}

// WriteFile is Write for a file that is not of a wall, by its path.
func WriteFile(path string, fill func(io.Writer) error) error {
	dir := filepath.Dir(path)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return Explain(path, err)
	}
	return At(dir).Write(filepath.Base(path), fill)
}

func write(root *os.Root, local string, fill func(io.Writer) error) error {
	dir := filepath.Dir(local)
	if err := root.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	// What replaced a link would no longer be where its owner looks for it.
	local, err := follow(root, local)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	dir = filepath.Dir(local)
	old, err := root.Stat(local)
	if err == nil && old.Mode().IsRegular() && old.Mode().Perm()&0o222 == 0 {
		return errProtected
	}
	temp := filepath.Join(dir, TempPrefix+rand.Text())
	file, err := root.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	if err := fillAndSync(root.Name(), file, old, fill); err != nil {
		return errors.Join(err, root.Remove(temp))
	}
	if err := root.Rename(temp, local); err != nil {
		return errors.Join(err, root.Remove(temp))
	}
	syncFolder(root, dir)
	return nil
}

// fillAndSync leaves the file closed and on the disk, with the group and the
// rights of the old one it will replace, if there is one.
func fillAndSync(dir string, file *os.File, old fs.FileInfo, fill func(io.Writer) error) error {
	defer file.Close()
	mode := fs.FileMode(0o644)
	if old != nil {
		mode = old.Mode().Perm()
		keepGroup(file, old)
	}
	w := bufio.NewWriterSize(file, 64<<10)
	if err := fill(w); err != nil {
		return err
	}
	if err := w.Flush(); err != nil {
		return err
	}
	if err := setMode(dir, file, mode); err != nil {
		return err
	}
	if err := store(dir, file); err != nil {
		return err
	}
	return file.Close()
}

// syncFolder makes the new name itself last through a power cut. Windows and
// some network folders cannot; the file is whole there all the same.
func syncFolder(root *os.Root, dir string) {
	if d, err := root.Open(dir); err == nil {
		_ = d.Sync()
		d.Close()
	}
}

// Remove removes a file that is made anew at any time; no file is no error.
// Any other is the system's own, for the caller to Explain.
func (f Folder) Remove(name string) error {
	root, err := f.open()
	if err != nil {
		return err
	}
	defer root.Close()
	if err := root.Remove(filepath.FromSlash(name)); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// AsideSuffix ends the name, begun with TempPrefix, of a whole folder that was
// moved aside and waits to be put back. It is no rest of a crash.
const AsideSuffix = "-before"

// sweep removes what a crash left half-written. Only the holder of the lock may.
func (f Folder) sweep() {
	root, err := f.open()
	if err != nil {
		return
	}
	defer root.Close()
	for _, sub := range []string{
		".", "content", "themes", "themes/script", "themes/style", "tiles", "tiles/photos",
		"earlier", "earlier/content", "earlier/tiles", "build", "build/contact", "build/cache", "build/pictures", "build/print",
	} {
		names, _ := f.Names(sub)
		for _, name := range names {
			if strings.HasPrefix(name, TempPrefix) && !strings.HasSuffix(name, AsideSuffix) {
				_ = root.RemoveAll(filepath.Join(filepath.FromSlash(sub), name))
			}
		}
	}
}
