package measure

import (
	"bytes"
	"fmt"
	"image"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/mark"
	"github.com/twodip/twodip/tiles/photo"
)

// Widths are the longer sides, in pixels, of the pictures made of a tile: one
// to look at, one for the wall.
var Widths = []int{1280, 320}

// Picture is a small JPEG of one tile, in sRGB and with nothing but the picture
// in it.
type Picture struct {
	Tile  tiles.Number
	Width int // one of Widths
	JPEG  []byte
}

// Result is what one photo gave.
type Result struct {
	Readings []tiles.Reading
	Pictures []Picture
	Notes    []string // warnings about the photo as a whole, a sentence each
	View     *View    // nil = not asked for
}

// Reader reads photos one after the other, reusing its memory; it is not for
// two goroutines at once. The zero value is ready.
type Reader struct {
	mosaic mosaic
}

// Read opens a photo and gives its readings and pictures. An error is said to
// the person who took the photo: a photo.Refusal, or a tiles.Problem where the
// photo is fine but not of a tile of this wall.
func (r *Reader) Read(data []byte, ask Ask) (Result, error) {
	s, err := openScene(data, ask)
	if err != nil {
		return Result{}, err
	}
	s.fitBy(ask, r)
	var res Result
	res.Notes = slices.Concat(s.photo.Notes, s.notes)
	if ask.View {
		if res.View, err = s.view(); err != nil {
			return Result{}, err
		}
	}
	hash := ask.hash(Sum(data), s.whole)
	for i := range s.faces {
		rs, err := r.face(s, &s.faces[i], ask, res.View)
		if err != nil && s.whole {
			res.Notes = append(res.Notes, fmt.Sprintf("tile %s left out: it is blown out or covered by glare", s.faces[i].Tile))
			continue
		}
		if err != nil {
			return Result{}, err
		}
		if s.whole && worstKept(rs) < leastOnBoard {
			res.Notes = append(res.Notes, fmt.Sprintf("tile %s left out: glare covers most of it, or of one of its zones", s.faces[i].Tile))
			continue
		}
		for j := range rs {
			rs[j].Hash = hash
		}
		res.Readings = append(res.Readings, rs...)
	}
	res.Pictures, err = s.pictures()
	return res, err
}

// leastOnBoard is how much of each zone must be fit to use for a tile to be
// read from a photo of the whole board: there, another photo is soon taken.
const leastOnBoard = 0.5

func worstKept(rs []tiles.Reading) float64 {
	least := 1.0
	for _, r := range rs {
		least = min(least, r.Kept)
	}
	return least
}

// Pictures makes a photo's pictures again without measuring it.
func Pictures(data []byte, ask Ask) ([]Picture, error) {
	s, err := openScene(data, ask)
	if err != nil {
		return nil, err
	}
	return s.pictures()
}

// scene is an opened photo with what was found in it.
type scene struct {
	photo *photo.Photo
	luma  mark.Plane
	large photo.Small // made when it is first needed
	faces []Face
	whole bool // the photo shows the whole board, not one tile
	light *level
	paper correct.RGB // light of white paper, of the mat or about a board's marks; zero = none was seen
	ink   correct.RGB // light of the black of a board's marks

	cardPlace *Quad           // where the mat has a place for the reference
	chart     *candidateChart // nil = not looked for
	fix       *correct.Correction
	class     tiles.Class // instead of the correction's own kind
	said      string      // instead of the correction's own words
	notes     []string
	papers    []Quad // where the light was read
	used      []Quad // where the reference was read
}

func openScene(data []byte, ask Ask) (*scene, error) {
	p, err := photo.Open(data)
	if err != nil {
		return nil, err
	}
	s := &scene{photo: p, fix: correct.None(p.Profile.ToXYZ)}
	return s, s.place(ask)
}

// picture is the whole photo at the size of the larger picture.
func (s *scene) picture() photo.Small {
	if s.large.YCbCr == nil {
		s.large = s.photo.Small(s.photo.Image.Bounds(), Widths[0])
	}
	return s.large
}

// face reads the zones of one tile, and adds them to the view where there is one.
func (r *Reader) face(s *scene, f *Face, ask Ask, view *View) ([]tiles.Reading, error) {
	t, _ := ask.Wall.Tile(f.Tile)
	r.mosaic.read(s.photo, f.Quad.Bounds())
	f.soft = soft(s.photo, f.Quad.Bounds())
	var out []tiles.Reading
	var zones []Quad
	var dropped []int32
	for _, a := range areas(ask.Wall.Settings.Tile, t.Pair, f.Middle) {
		got := r.mosaic.takeSample(f, a, &s.photo.Profile.ToXYZ, s.light)
		zones, dropped = append(zones, f.Quad.Part(a.u0, a.v0, a.u1, a.v1)), append(dropped, got.dropped...)
		if got.kept == 0 {
			continue
		}
		out = append(out, s.reading(f, a.zone, &got, ask))
	}
	if view != nil {
		seen, err := r.mosaic.seen(f, zones, dropped)
		if err != nil {
			return nil, err
		}
		view.Faces = append(view.Faces, seen)
	}
	if len(out) == 0 {
		return nil, photo.Refusal{
			What: "nothing of the tile can be read: it is blown out or covered by glare",
			Do:   "photograph it again with less light, or from another side",
		}
	}
	return out, nil
}

// margin is how much of its ground a tile's picture shows on each side, as a
// share of the tile.
const margin = 0.06

// pictures makes the pictures of every face.
func (s *scene) pictures() ([]Picture, error) {
	var out []Picture
	for i := range s.faces {
		var from photo.Small
		if f := &s.faces[i]; f.Found == FoundMarks || f.Found == FoundByHand {
			from = s.photo.Small(f.surroundings().Intersect(s.photo.Image.Bounds()), Widths[0])
		} else {
			from = s.picture()
		}
		for _, width := range Widths {
			small := from
			if width < Widths[0] {
				small = from.Small(width)
			}
			var buf bytes.Buffer
			if err := small.JPEG(&buf); err != nil {
				return nil, err
			}
			out = append(out, Picture{Tile: s.faces[i].Tile, Width: width, JPEG: buf.Bytes()})
		}
	}
	return out, nil
}

// surroundings is the face with a little of what is around it.
func (f *Face) surroundings() image.Rectangle {
	b := f.Quad.Bounds()
	return b.Inset(-int(margin * float64(min(b.Dx(), b.Dy()))))
}
