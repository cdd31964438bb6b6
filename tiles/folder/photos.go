package folder

import (
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/twodip/twodip/tiles"
)

// Photos is where a wall's photos lie, as taken.
const Photos = "tiles/photos"

// MostPhoto bounds a photo's file, in bytes.
const MostPhoto = 256 << 20

// ListPhotos lists the photos by their path below tiles/photos, in its folders
// too, by tile and then by name. Hidden files, and the notes that systems leave
// among pictures, are no photos.
func (f Folder) ListPhotos() ([]string, error) {
	var out []string
	note := func(name string) bool { return isNote(path.Base(name)) }
	err := f.Walk(Photos, note, func(name string) error {
		out = append(out, strings.TrimPrefix(name, Photos+"/"))
		return nil
	})
	slices.SortFunc(out, ByNumber)
	return out, err
}

// ByNumber sorts photos by tile, then by name.
func ByNumber(p, q string) int {
	m, _ := tiles.NumberFromPhoto(p)
	n, _ := tiles.NumberFromPhoto(q)
	if m != n {
		return int(m) - int(n)
	}
	return strings.Compare(p, q)
}

// ReadPhoto reads a photo by its path below tiles/photos.
func (f Folder) ReadPhoto(name string) ([]byte, error) {
	full := Photos + "/" + name
	if !utf8.ValidString(name) {
		return nil, tiles.Problems{{File: strings.ToValidUTF8(full, "�"), What: "the name is not in UTF-8, so no table can hold it", Do: "give the photo another name"}}
	}
	file, err := f.openPhoto(name)
	if err != nil {
		return nil, explainPhoto(full, err)
	}
	defer file.Close()
	data, err := readUpTo(file, MostPhoto)
	return data, explainPhoto(full, err)
}

// openPhoto follows a link only where it stays among the photos.
func (f Folder) openPhoto(name string) (*os.File, error) {
	root, err := f.open()
	if err != nil {
		return nil, err
	}
	defer root.Close()
	if err := noLink(root, filepath.FromSlash(Photos)); err != nil {
		return nil, err
	}
	if err := isFolder(root, filepath.FromSlash(Photos)); err != nil {
		return nil, err
	}
	photos, err := root.OpenRoot(filepath.FromSlash(Photos))
	if err != nil {
		return nil, err
	}
	defer photos.Close()
	local := filepath.FromSlash(name)
	info, err := photos.Stat(local)
	switch {
	case err != nil && strings.Contains(err.Error(), "escapes"):
		return nil, errOutside
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, errNotAFile
	}
	return photos.Open(local)
}

// explainPhoto is explainRead in the words for photos.
func explainPhoto(name string, err error) error {
	var large errLarge
	p := tiles.Problem{File: name}
	switch {
	case errors.Is(err, errOutside):
		p.What, p.Do = "it is a link to a place outside "+Photos, "put the photo itself there"
	case errors.As(err, &large):
		p.What, p.Do = "the file is larger than 256 MB", "make it smaller, or move it away if it is no photo"
	default:
		return explainRead(name, err)
	}
	return tiles.Problems{p}
}

// FindPhoto is a photo that a person has named, from where they are or below
// tiles/photos, by its path below tiles/photos.
func (f Folder) FindPhoto(name string) (string, bool) {
	base, err := filepath.Abs(f.Path(Photos))
	if err != nil {
		return "", false
	}
	for _, at := range []string{name, filepath.Join(base, filepath.FromSlash(name))} {
		full, err := filepath.Abs(at)
		if err != nil {
			continue
		}
		rel, err := filepath.Rel(base, full)
		if err != nil || !filepath.IsLocal(rel) {
			continue
		}
		if info, err := os.Stat(full); err == nil && info.Mode().IsRegular() {
			return filepath.ToSlash(rel), true
		}
	}
	return "", false
}

// GivenPhoto reads a photo that a person has named, from where they are or else
// below tiles/photos. One that is in neither place is fs.ErrNotExist.
func (f Folder) GivenPhoto(name string) ([]byte, error) {
	file, err := Given(name)
	if errors.Is(err, fs.ErrNotExist) && filepath.IsLocal(name) {
		return f.ReadPhoto(filepath.ToSlash(name))
	}
	if err != nil {
		return nil, err
	}
	defer file.Close()
	data, err := readUpTo(file, MostPhoto)
	return data, explainPhoto(filepath.ToSlash(name), err)
}
