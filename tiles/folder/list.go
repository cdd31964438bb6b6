package folder

import (
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
)

// Names lists what lies straight in a folder of the wall, in order of name; no
// folder is no names.
func (f Folder) Names(sub string) ([]string, error) {
	root, err := f.open()
	if err != nil {
		return nil, explainRead(filepath.ToSlash(f.dir), err)
	}
	defer root.Close()
	local := filepath.FromSlash(sub)
	err = noLink(root, local)
	if err == nil {
		err = isFolder(root, local)
	}
	if err == nil {
		var dir *os.File
		if dir, err = root.Open(local); err == nil {
			defer dir.Close()
			var names []string
			if names, err = dir.Readdirnames(-1); err == nil {
				slices.Sort(names)
				return names, nil
			}
		}
	}
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	return nil, explainRead(sub, err)
}

// isFolder makes sure that a name is a folder's: opening a pipe would wait for
// ever.
func isFolder(root *os.Root, local string) error {
	info, err := root.Stat(local)
	if err == nil && !info.IsDir() {
		err = syscall.ENOTDIR
	}
	return err
}

// Walk goes through the files below a folder of the wall in order of name,
// without those of the folders that skip names. No folder is no files.
func (f Folder) Walk(sub string, skip func(name string) bool, each func(name string) error) error {
	root := f.Path(sub)
	info, err := os.Lstat(root)
	switch {
	case err == nil && info.Mode()&fs.ModeSymlink != 0 && sub != ".":
		return explainRead(sub, errLink)
	case err == nil && !info.IsDir() && sub != ".":
		return explainRead(sub, syscall.ENOTDIR)
	}
	return filepath.WalkDir(root, func(at string, d fs.DirEntry, err error) error {
		if errors.Is(err, fs.ErrNotExist) && at == root {
			return nil
		}
		rel, relErr := filepath.Rel(f.dir, at)
		if err = errors.Join(err, relErr); err != nil {
			return explainRead(sub, err)
		}
		name := filepath.ToSlash(rel)
		switch {
		case at != root && skip != nil && skip(name):
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		case d.IsDir():
			return nil
		}
		return each(name)
	})
}

// mostTheme bounds a file of a theme: the largest built-in one has 20 KB.
const mostTheme = 1 << 20

// Part is a folder of the wall as a file system; nil where there is none.
func (f Folder) Part(sub string) fs.FS {
	if info, err := os.Stat(f.Path(sub)); err != nil || !info.IsDir() {
		return nil
	}
	return part{f, sub, mostTheme}
}

type part struct {
	Folder
	sub  string
	most int64 // bytes of a file
}

// Open opens a file or a folder of the part, by the rules of every file here.
func (p part) Open(name string) (fs.File, error) {
	full := path.Join(p.sub, name)
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	info, err := os.Lstat(p.Path(full))
	if err == nil && info.IsDir() {
		return os.DirFS(p.dir).Open(full)
	}
	file, err := p.Folder.Open(full)
	if err != nil {
		return nil, err
	}
	if info, err := file.Stat(); err == nil && info.Size() > p.most {
		file.Close()
		return nil, explainRead(full, errLarge(p.most))
	}
	return file, nil
}

// isNote says of a name that it is hidden, or a note that systems leave in
// folders of pictures.
func isNote(name string) bool {
	return strings.HasPrefix(name, ".") || strings.EqualFold(name, "Thumbs.db") || strings.EqualFold(name, "desktop.ini")
}
