package main

import (
	"errors"
	"maps"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/unchanged"
)

// cacheFolder holds what makes the next run quicker, and nothing else.
const cacheFolder = "build/cache"

// knownFiles is what earlier runs know of the wall's files. Only who holds the
// wall's lock may ask.
func (a *app) knownFiles() *unchanged.Files {
	return unchanged.Read(a.folder().Path(cacheFolder+"/wall.files"), a.wall)
}

// winners is the reading of a photo that each tile is shown by: of those made
// from photos the one to trust most.
func winners(rs []tiles.Reading) map[tiles.Number]tiles.Reading {
	rs = slices.DeleteFunc(slices.Clone(rs), func(r tiles.Reading) bool { return r.Photo == "" })
	out := map[tiles.Number]tiles.Reading{}
	for n, of := range tiles.ByTile(rs) {
		if best, ok := tiles.ColorOf(of, n); ok {
			out[n] = best
		}
	}
	return out
}

// pictureFrom is the hash of what a tile's pictures are made from: the photo
// that its color stands on, as it was read.
func pictureFrom(r tiles.Reading) string { return measure.Sum([]byte(r.Photo + "\n" + r.Hash)) }

// writePicture writes a tile's picture, made from a photo with those readings.
func (a *app) writePicture(files *unchanged.Files, p measure.Picture, rs []tiles.Reading) error {
	name := measure.PicturePath(p.Tile, p.Width)
	if err := a.folder().WriteBytes(name, p.JPEG); err != nil {
		return err
	}
	from := ""
	if i := slices.IndexFunc(rs, func(r tiles.Reading) bool { return r.Tile == p.Tile }); i >= 0 {
		from = pictureFrom(rs[i])
	}
	return files.Note(name, from, measure.Sum(p.JPEG))
}

// remade says what became of pictures that had to be made again.
type remade struct {
	made      int            // photos that were read for it
	missed    int            // photos that could not be read
	lost      tiles.Problems // of them, those that leave a tile without a picture
	unwritten error          // why no picture can be written
}

// missingPictures makes the pictures of every tile that lacks one of them, or
// has one that was altered or is not of the photo that its color stands on.
func (a *app) missingPictures(files *unchanged.Files, wall tiles.Wall) (r remade) {
	wanted := map[string][]tiles.Reading{} // by photo
	for n, best := range winners(wall.Readings) {
		if !holdsPictures(files, n, pictureFrom(best)) {
			wanted[best.Photo] = append(wanted[best.Photo], best)
		}
	}
	if len(wanted) == 0 {
		return r
	}
	bar := a.progress(len(wanted), "pictures")
	for _, photo := range slices.SortedFunc(maps.Keys(wanted), folder.ByNumber) {
		r.add(photo, a.makePictures(files, wall, photo, wanted[photo]), slices.ContainsFunc(wanted[photo], a.hasNoPictures))
		_ = bar.Add(1)
	}
	_ = bar.Finish()
	return r
}

// add notes what became of the pictures of one photo, and whether one of its
// tiles has none now.
func (r *remade) add(photo string, err error, none bool) {
	var unwritten tiles.Problems
	switch {
	case err == nil:
		r.made++
	case errors.As(err, &unwritten):
		r.unwritten = err
	default:
		r.missed++
		if none {
			r.lost = append(r.lost, photoProblem(folder.Photos+"/"+photo, err))
		}
	}
}

// makePictures makes the pictures of the tiles that readings of one photo
// stand for.
func (a *app) makePictures(files *unchanged.Files, wall tiles.Wall, photo string, of []tiles.Reading) error {
	data, err := a.folder().ReadPhoto(photo)
	if err != nil {
		return err
	}
	patches, err := a.patches(wall.Settings)
	if err != nil {
		return err
	}
	pictures, err := measure.Pictures(data, measure.Ask{Wall: wall, Photo: photo, Patches: patches})
	if err != nil {
		return err
	}
	for _, p := range pictures {
		if !slices.ContainsFunc(of, func(r tiles.Reading) bool { return r.Tile == p.Tile }) {
			continue
		}
		if err := a.writePicture(files, p, of); err != nil {
			return err
		}
	}
	return nil
}

func holdsPictures(files *unchanged.Files, n tiles.Number, from string) bool {
	for _, width := range measure.Widths {
		if !files.Holds(measure.PicturePath(n, width), from) {
			return false
		}
	}
	return true
}

func (a *app) hasNoPictures(r tiles.Reading) bool {
	for _, width := range measure.Widths {
		if !a.folder().Has(measure.PicturePath(r.Tile, width)) {
			return true
		}
	}
	return false
}
