package measure

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/photo"
)

// Result is what one photo gave.
type Result struct {
	Readings []tiles.Reading
	Pictures []Picture
	Notes    []string // warnings about the photo as a whole, a sentence each
	View     *View    // nil = not asked for

	Paper *color.Lab // of the mat's paper, where a chart on it tells; nil = none does
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
	if strings.ContainsFunc(ask.Photo, unicode.IsControl) {
		return Result{}, photo.Refusal{What: "its name holds a line break or another character that no table keeps", Do: "rename it"}
	}
	s, err := openShot(data)
	if err != nil {
		return Result{}, err
	}
	found, err := find(s, ask)
	if err != nil {
		return Result{}, err
	}
	fix := fixOf(s, &found, ask, &r.mosaic)
	res := Result{Notes: slices.Concat(s.photo.Notes, found.Notes, fix.Notes)}
	if ask.View {
		if res.View, err = newView(s.photo, &found, &fix); err != nil {
			return Result{}, err
		}
	}
	if paper, ok := fix.paperSeen(&found); ok {
		res.Paper = &paper
	}
	in := zoneReader{shot: s, ask: ask, fix: &fix, areas: &r.mosaic, view: res.View}
	for i := range found.Faces {
		rs, err := in.face(&found.Faces[i])
		switch {
		case err != nil && found.several():
			res.Notes = append(res.Notes, fmt.Sprintf("tile %s left out: %s", found.Faces[i].Tile, whyRefused(err)))
			continue
		case err != nil:
			return Result{}, err
		case found.Whole && worstKept(rs) < leastOnBoard:
			res.Notes = append(res.Notes, fmt.Sprintf("tile %s left out: glare covers most of it, or of one of its zones", found.Faces[i].Tile))
			continue
		}
		res.Readings = append(res.Readings, rs...)
	}
	if advice := moreControls(&fix, res.Readings); advice != "" {
		res.Notes = append(res.Notes, advice)
	}
	hash := ask.Hash(Sum(data), res.Readings)
	for i := range res.Readings {
		res.Readings[i].Hash = hash
	}
	res.Pictures, err = pictures(s, found.Faces)
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

// zoneReader is the reading of one photo's tiles, found and corrected.
type zoneReader struct {
	*shot
	ask   Ask
	fix   *Fix
	areas *mosaic
	view  *View // nil = not asked for
}

// face reads the zones of one tile, and adds them to the view where there is one.
func (r *zoneReader) face(f *Face) ([]tiles.Reading, error) {
	t, _ := r.ask.Wall.Tile(f.Tile)
	r.areas.read(r.photo, f.Quad.Bounds())
	f.soft = soft(r.photo, f.Quad.Bounds())
	var out []tiles.Reading
	var zones []geometry.Quad
	var dropped []int32
	for _, a := range areas(r.ask.Wall.Settings.Tile, t.Pair, f.Middle) {
		got := r.areas.takeSample(f, a, &r.photo.Profile.ToXYZ, r.fix.Light.level)
		zones, dropped = append(zones, f.Quad.Part(a.u0, a.v0, a.u1, a.v1)), append(dropped, got.dropped...)
		if got.kept == 0 {
			continue
		}
		one := r.read(f, a.zone, &got)
		if err := r.glared(f, a, &one); err != nil {
			return nil, err
		}
		if err := inRange(&one); err != nil {
			return nil, err
		}
		out = append(out, one)
	}
	if r.view != nil {
		seen, err := r.areas.seen(f, zones, dropped)
		if err != nil {
			return nil, err
		}
		r.view.Faces = append(r.view.Faces, seen)
	}
	if len(out) == 0 {
		return nil, photo.Refusal{
			What: "it is blown out or covered by glare, so nothing of it can be read",
			Do:   "photograph it again with less light, or from another side",
		}
	}
	return out, nil
}
