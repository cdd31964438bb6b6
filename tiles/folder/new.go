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
