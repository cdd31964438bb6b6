package main

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/photo"
)

// photosFolder is where a wall's photos lie, as taken.
const photosFolder = "tiles/photos"

// mostPhoto bounds a photo's file.
const mostPhoto = 256 << 20

// findPhotos lists photos by their path below tiles/photos, with forward
// slashes. Names given may be below that folder or below the current one.
func (a *app) findPhotos(names []string) ([]string, error) {
	root := filepath.Join(a.wall, filepath.FromSlash(photosFolder))
	if len(names) == 0 {
		return listPhotos(root)
	}
	var out []string
	for _, name := range names {
		rel, ok := belowPhotos(root, name)
		if !ok {
			return nil, tiles.Problem{File: name, What: "there is no such photo in " + photosFolder, Do: "copy it there; its name begins with the tile's number"}
		}
		out = append(out, rel)
	}
	return out, nil
}

// listPhotos walks the folder. Hidden files, and the notes that systems leave
// in folders of pictures, are no photos.
func listPhotos(root string) ([]string, error) {
	var out []string
	err := filepath.WalkDir(root, func(path string, d os.DirEntry, err error) error {
		switch {
		case errors.Is(err, os.ErrNotExist) && path == root:
			return nil
		case err != nil:
			return tiles.Problem{File: photosFolder, What: "it cannot be read: " + plainError(err)}
		case path != root && strings.HasPrefix(d.Name(), "."), strings.EqualFold(d.Name(), "Thumbs.db"), strings.EqualFold(d.Name(), "desktop.ini"):
			if d.IsDir() {
				return filepath.SkipDir
			}
			return nil
		case d.IsDir():
			return nil
		}
		rel, err := filepath.Rel(root, path)
		out = append(out, filepath.ToSlash(rel))
		return err
	})
	slices.SortFunc(out, inNumberOrder)
	return out, err
}

// inNumberOrder sorts photos by tile, then by name.
func inNumberOrder(p, q string) int {
	m, _ := tiles.NumberFromPhoto(p)
	n, _ := tiles.NumberFromPhoto(q)
	if m != n {
		return int(m) - int(n)
	}
	return strings.Compare(p, q)
}

// belowPhotos is the name as a path below the photos' folder, where it is one.
func belowPhotos(root, name string) (string, bool) {
	for _, path := range []string{name, filepath.Join(root, filepath.FromSlash(name))} {
		full, err := filepath.Abs(path)
		if err != nil {
			continue
		}
		base, err := filepath.Abs(root)
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

// readPhoto reads a photo's bytes. It follows no link out of the folder of
// photos: what is read here may be published.
func (a *app) readPhoto(name string) ([]byte, error) {
	folder := filepath.Join(a.wall, filepath.FromSlash(photosFolder))
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	if _, err := root.Stat(filepath.FromSlash(name)); err != nil && strings.Contains(err.Error(), "escapes") {
		return nil, photo.Refusal{What: "it is a link to a place outside " + photosFolder, Do: "put the photo itself there"}
	}
	return readBounded(filepath.Join(folder, filepath.FromSlash(name)))
}

// readBounded reads a photo's file, if it is one and not too large to be one.
func readBounded(path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, photo.Refusal{What: "it is not a file", Do: "move it away"}
	case info.Size() > mostPhoto:
		return nil, photo.Refusal{What: "the file is larger than 256 MB", Do: "make it smaller"}
	}
	return os.ReadFile(path)
}
