package measure

import (
	"fmt"
	"image"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/photo"
)

// Widths are the longer sides, in pixels, of the pictures made of a tile: one
// to look at, one for the wall. One that would be too heavy is a little smaller.
var Widths = []int{1280, 320}

// MostBytes is as heavy as a picture may be: a tile's page takes at most 150 KB
// with its photo, and style, script and words a third of that.
const MostBytes = 104_000

// Picture is a small JPEG of one tile, in sRGB and with nothing but the picture
// in it.
type Picture struct {
	Tile  tiles.Number
	Width int // one of Widths
	JPEG  []byte
}

// PicturePath is where a wall keeps a tile's picture, below its folder.
func PicturePath(n tiles.Number, width int) string {
	return fmt.Sprintf("build/pictures/%s-%d.jpg", n, width)
}

// Pictures makes a photo's pictures again without measuring it.
func Pictures(data []byte, ask Ask) ([]Picture, error) {
	s, err := openShot(data)
	if err != nil {
		return nil, err
	}
	found, err := find(s, ask)
	if err != nil {
		return nil, err
	}
	return pictures(s, found.Faces)
}

// margin is how much of its ground a tile's picture shows on each side, as a
// share of the tile.
const margin = 0.06

// pictures makes the pictures of every face.
func pictures(s *shot, faces []Face) ([]Picture, error) {
	var out []Picture
	for i := range faces {
		var from photo.Small
		if f := &faces[i]; f.Found == FoundMarks || f.Found == FoundByHand {
			from = s.photo.Small(f.surroundings().Intersect(s.photo.Image.Bounds()), Widths[0])
		} else {
			from = s.picture()
		}
		for _, width := range Widths {
			small := from
			if width < Widths[0] {
				small = from.Small(width)
			}
			data, err := small.JPEG(MostBytes)
			if err != nil {
				return nil, err
			}
			out = append(out, Picture{Tile: faces[i].Tile, Width: width, JPEG: data})
		}
	}
	return out, nil
}

// surroundings is the face with a little of what is around it.
func (f *Face) surroundings() image.Rectangle {
	b := f.Quad.Bounds()
	return b.Inset(-int(margin * float64(min(b.Dx(), b.Dy()))))
}
