package run

import (
	"context"
	"errors"
	"maps"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/unchanged"
)

// CacheFolder holds what makes the next run quicker, and nothing else.
const CacheFolder = "build/cache"

// KnownFiles is what earlier runs know of the wall's files. Only who holds the
// wall's lock may ask.
func KnownFiles(dir folder.Folder) *unchanged.Files {
	return unchanged.Read(dir.Path(CacheFolder+"/wall.files"), dir.Dir())
}

// Winners is the reading of a photo that each tile is shown by: of those made
// from photos the one to trust most.
func Winners(rs []tiles.Reading) map[tiles.Number]tiles.Reading {
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
func pictureFrom(r tiles.Reading) string { return unchanged.Sum([]byte(r.Photo + "\n" + r.Hash)) }

// writePicture writes a tile's picture, made from a photo with those readings.
func writePicture(dir folder.Folder, files *unchanged.Files, p measure.Picture, rs []tiles.Reading) error {
	name := measure.PicturePath(p.Tile, p.Width)
	if err := dir.WriteBytes(name, p.JPEG); err != nil {
		return err
	}
	from := ""
	if i := slices.IndexFunc(rs, func(r tiles.Reading) bool { return r.Tile == p.Tile }); i >= 0 {
		from = pictureFrom(rs[i])
	}
	return files.Note(name, from, unchanged.Sum(p.JPEG))
}

// Remade says what became of pictures that had to be made again.
type Remade struct {
	Made      int            // photos that were read for it
	Missed    int            // photos that could not be read, or were not come to
	Lost      tiles.Problems // of them, those that leave a tile without a picture
	Unwritten error          // why no picture can be written
}

// Pictures makes the pictures of every tile that lacks one of them, or has one
// that was altered or is not of the photo that its color stands on.
func Pictures(ctx context.Context, dir folder.Folder, files *unchanged.Files, wall tiles.Wall, tell Tell) (r Remade) {
	wanted := map[string][]tiles.Reading{} // by photo
	for n, best := range Winners(wall.Readings) {
		if !best.Away && !holdsPictures(files, n, pictureFrom(best)) {
			wanted[best.Photo] = append(wanted[best.Photo], best)
		}
	}
	if len(wanted) == 0 {
		return r
	}
	pictures := tell.begin("pictures", len(wanted))
	hasNone := func(of tiles.Reading) bool {
		return slices.ContainsFunc(measure.Widths, func(width int) bool { return !dir.Has(measure.PicturePath(of.Tile, width)) })
	}
	for _, photo := range slices.SortedFunc(maps.Keys(wanted), folder.ByNumber) {
		if ctx.Err() != nil {
			r.Missed++ // the next run makes them
			continue
		}
		r.add(photo, makePictures(dir, files, wall, photo, wanted[photo]), slices.ContainsFunc(wanted[photo], hasNone))
		pictures.step(nil)
	}
	return r
}

// add notes what became of the pictures of one photo, and whether one of its
// tiles has none now.
func (r *Remade) add(photo string, err error, none bool) {
	var stopped errUnwritten
	switch {
	case err == nil:
		r.Made++
	case errors.As(err, &stopped):
		r.Unwritten = stopped.error
	default:
		r.Missed++
		if none {
			r.Lost = append(r.Lost, photoProblem(folder.Photos+"/"+photo, err))
		}
	}
}

// errUnwritten is why a picture cannot be written, where its photo could be read.
type errUnwritten struct{ error }

// makePictures makes the pictures of the tiles that readings of one photo
// stand for.
func makePictures(dir folder.Folder, files *unchanged.Files, wall tiles.Wall, photo string, of []tiles.Reading) error {
	data, err := dir.ReadPhoto(photo)
	if err != nil {
		return err
	}
	patches, err := patches(dir, wall.Settings)
	if err != nil {
		return err
	}
	var made []measure.Picture
	err = Guarded(func() (err error) {
		made, err = measure.Pictures(data, measure.Ask{Wall: wall, Photo: photo, Patches: patches})
		return err
	})
	if err != nil {
		return err
	}
	for _, p := range made {
		if !slices.ContainsFunc(of, func(r tiles.Reading) bool { return r.Tile == p.Tile }) {
			continue
		}
		if err := writePicture(dir, files, p, of); err != nil {
			return errUnwritten{err}
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
