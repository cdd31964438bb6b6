package content

import (
	"embed"
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"

	"github.com/twodip/twodip/tiles"
)

//go:embed starter pages
var built embed.FS

// Starter lists the files of a new wall by their path inside it: short,
// commented, to be edited, and the built-in pages.
func Starter() (map[string][]byte, error) {
	files := map[string][]byte{}
	for from, to := range map[string]string{"starter": "", "pages": "content"} {
		entries, err := fs.ReadDir(built, from)
		if err != nil {
			return nil, err
		}
		for _, e := range entries {
			text, err := fs.ReadFile(built, path.Join(from, e.Name()))
			if err != nil {
				return nil, err
			}
			files[starterPlace(to, e.Name())] = text
		}
	}
	files[".gitignore"] = []byte("# Made anew by twodip at any time.\nbuild/\n.twodip.lock\n.twodip-writing-*\n")
	return files, nil
}

func starterPlace(folder, name string) string {
	switch name {
	case "glazes.csv":
		folder = "content"
	case "log.csv", "batches.csv", "loads.csv":
		folder = "tiles"
	}
	return path.Join(folder, name)
}

// Start makes a new wall in dir, which must not exist or be empty.
func Start(dir string) error {
	files, err := Starter()
	if err != nil {
		return err
	}
	if err := NewFolder(dir); err != nil {
		return err
	}
	return writeAll(dir, files)
}

// NewFolder makes dir, or takes it as it is where it is empty. A folder that
// holds anything is refused: nothing of anybody's is ever written over.
func NewFolder(dir string) error {
	shown := filepath.ToSlash(dir)
	entries, err := os.ReadDir(dir)
	var p *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return cannotMake(shown, err)
		}
	case errors.As(err, &p):
		return problem(shown, 0, "is a file, or a folder you may not read", "name a new folder")
	case len(entries) > 0:
		return problem(shown, 0, "is there already and is not empty", "name a new folder")
	}
	return nil
}

// writeAll writes into a folder that was empty, so nothing can be lost by a
// write that stops half way.
func writeAll(dir string, files map[string][]byte) error {
	for _, folder := range []string{"content", "tiles/photos"} {
		if err := os.MkdirAll(filepath.Join(dir, filepath.FromSlash(folder)), 0o755); err != nil {
			return cannotMake(folder, err)
		}
	}
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, filepath.FromSlash(name)), text, 0o644); err != nil {
			return cannotMake(name, err)
		}
	}
	return nil
}

func cannotMake(name string, err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	return tiles.Problems{{File: name, What: "cannot be written: " + err.Error(), Do: "name a folder you may write to, on a disk with room"}}
}
