package folder

import (
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"github.com/twodip/twodip/tiles"
)

// New makes the folder dir, or takes it as it is where it is empty. A folder
// that holds anything is refused: nothing of anybody's is ever written over.
func New(dir string) (Folder, error) {
	f := At(dir)
	refused := func(what string) error {
		return tiles.Problems{{File: filepath.ToSlash(dir), What: what, Do: "name a new folder"}}
	}
	entries, err := os.ReadDir(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return f, Explain(dir, os.MkdirAll(dir, 0o755))
	case err != nil:
		return f, refused("is a file, or a folder you may not read")
	case len(entries) > 0:
		return f, refused("is there already and is not empty")
	}
	return f, nil
}

// Make makes a new folder of those files and empty folders, or leaves nothing
// behind: half a wall could neither be used nor be made anew.
func Make(dir string, files map[string][]byte, folders ...string) error {
	_, before := os.Stat(dir)
	f, err := New(dir)
	if err != nil {
		return err
	}
	if err = f.Fill(files, folders...); err == nil {
		return nil
	}
	if errors.Is(before, fs.ErrNotExist) {
		return errors.Join(err, os.RemoveAll(dir))
	}
	made, _ := os.ReadDir(dir) // it was empty
	for _, one := range made {
		err = errors.Join(err, os.RemoveAll(filepath.Join(dir, one.Name())))
	}
	return err
}

// Fill writes files into a new folder, by their names, and makes empty folders.
func (f Folder) Fill(files map[string][]byte, folders ...string) error {
	for _, name := range folders {
		if err := os.MkdirAll(f.Path(name), 0o755); err != nil {
			return Explain(f.Shown(name), err)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		if err := f.WriteBytes(name, files[name]); err != nil {
			return err
		}
	}
	return nil
}
