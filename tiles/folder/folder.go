// Package folder is a wall's folder: the one way to open, read, list, lock and
// write its files, over os.Root.
//
// What is read here may be published, and a folder may come from anybody. So a
// name never leads out of the wall; a link is refused, but for one among the
// photos that stays among them, and a table of tiles/ that leads to another file
// of the wall and is read and written there; a pipe or a device is refused instead of
// waited for; and every read says how much it is ready to take. A file is
// written whole or not at all.
//
// Names are below the wall, with forward slashes: "tiles/plan.csv". Errors are
// tiles.Problems; errors.Is still knows fs.ErrNotExist behind one.
package folder

import (
	"path"
	"path/filepath"
	"strings"
)

// Folder is a wall's folder by its path. Nothing is held open: it may be copied,
// and used by several goroutines at once.
type Folder struct{ dir string }

// At is the folder of that path. Whether it is there is said when it is used.
func At(dir string) Folder { return Folder{dir} }

// Dir is the path, as the person named it.
func (f Folder) Dir() string { return f.dir }

// Path is a file of the wall as the system names it.
func (f Folder) Path(name string) string { return filepath.Join(f.dir, filepath.FromSlash(name)) }

// Shown is a file of the wall as a person finds it from where they are.
func (f Folder) Shown(name string) string { return path.Join(filepath.ToSlash(f.dir), name) }

// Called is the folder as a person knows it: nobody calls it ".".
func (f Folder) Called() string {
	dir := f.dir
	if full, err := filepath.Abs(dir); err == nil && filepath.Clean(dir) == "." {
		dir = filepath.Base(full)
	}
	return filepath.ToSlash(dir)
}

// Typed is a path as it is typed into a shell, so that it can be copied there.
func Typed(path string) string {
	switch {
	case path != "" && !strings.ContainsAny(path, " \t\n\"'`$&|;<>()[]{}*?!#~^\\="):
		return path
	case !strings.ContainsAny(path, "\"`$!\\\n"):
		return `"` + path + `"`
	}
	return "'" + strings.ReplaceAll(path, "'", `'\''`) + "'"
}
