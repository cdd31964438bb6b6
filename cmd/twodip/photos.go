package main

import (
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

// findPhotos lists photos by their path below tiles/photos, with forward
// slashes. Names given may be below that folder or below the current one.
func (a *app) findPhotos(names []string) ([]string, error) {
	if len(names) == 0 {
		return a.folder().ListPhotos()
	}
	var out []string
	for _, name := range names {
		rel, ok := a.folder().FindPhoto(name)
		if !ok {
			return nil, tiles.Problem{File: name, What: "there is no such photo in " + folder.Photos, Do: "copy it there; its name begins with the tile's number"}
		}
		out = append(out, rel)
	}
	return out, nil
}
