package measure

import (
	"fmt"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/mark"
	"github.com/twodip/twodip/tiles/target"
)

// Found is what a photo shows and where: tiles, and what their light can be
// told by.
type Found struct {
	Faces []Face
	Whole bool            // the photo shows the whole board
	Pair  bool            // the photo shows two tiles on one mat
	Card  *geometry.Quad  // where the mat has a place for the reference; nil = it shows no mat
	Paper []geometry.Quad // white paper, of the mat or about a board's marks
	Ink   []geometry.Quad // the black of a board's marks
	Tags  []mark.TagSeen  // of a board's tiles
	Notes []string        // warnings, a sentence each

	chart *candidateChart // nil = not looked for
}

// several says that the photo is of more tiles than one: each may fail alone.
func (f *Found) several() bool { return f.Whole || f.Pair }

// onPage says that the photo shows a mat.
func (f *Found) onPage() bool { return f.Card != nil || f.Pair }

func (f *Found) note(format string, of ...any) { f.Notes = append(f.Notes, fmt.Sprintf(format, of...)) }

// finding is the search of one photo.
type finding struct {
	*shot
	ask Ask
	Found
}

// find says which tiles the photo shows and where: as somebody set by hand, by
// the marks of a board or mat, or as the one tile of its name.
func find(s *shot, ask Ask) (Found, error) {
	f := finding{shot: s, ask: ask}
	if err := ask.onPicture(s.photo); err != nil {
		return f.Found, err
	}
	seen, mirrored := mark.Find(s.luma)
	var err error
	switch board, mat := kinds(seen); {
	case mirrored:
		err = f.mirrored()
	case board > mat:
		err = f.onBoard(seen)
	case mat > 0:
		err = f.onMat(seen)
	default:
		err = f.plain()
	}
	if err != nil {
		return f.Found, err
	}
	f.outlined()
	return f.Found, f.cutOff()
}

// kinds counts the marks of a board and of a mat.
func kinds(found []mark.Found) (board, mat int) {
	for _, f := range found {
		if f.ID >= target.BoardTopLeft {
			board++
		} else {
			mat++
		}
	}
	return board, mat
}

// plain is a photo of one tile without marks.
func (f *finding) plain() error {
	var label mark.Label
	n, err := f.ask.number(func() (n tiles.Number, ok bool) {
		label, ok = mark.AnyLabel(f.luma)
		return label.Tile, ok
	})
	if label.Mirrored {
		return f.mirrored()
	}
	if err != nil {
		return err
	}
	face, ok := outline(f.photo, f.picture(), f.ask.Wall.Settings.Tile, f.besides())
	if !ok {
		face = middle(f.photo)
	}
	face.Tile = n
	if tooDark(f.picture()) {
		face.Warning = saidDark
	}
	f.Faces = []Face{face}
	return nil
}

// besides is where a reference lies: not to be taken for the tile.
func (f *finding) besides() []geometry.Quad {
	if len(f.ask.Patches) > 1 && f.ask.Wall.Photo.Reference != refNone {
		if f.chart = findChart(f.shot, &Lit{}, f.ask, nil); f.chart.fit != nil {
			return []geometry.Quad{f.chart.quad.Part(-chartFrame, -chartFrame, 1+chartFrame, 1+chartFrame)}
		}
	} else if q, drawn := f.ask.cardByHand(); drawn {
		return []geometry.Quad{q}
	}
	return nil
}

// chartFrame is how far a chart's frame reaches around its patches, as a share
// of them: it is not taken for the tile.
const chartFrame = 0.12

// cutOff leaves out tiles that marks place partly off the picture; where that is
// the only one, it is an error.
func (f *finding) cutOff() error {
	var whole []Face
	for _, face := range f.Faces {
		switch {
		case face.Found != FoundMarks || !reachesOut(face.Quad, f.photo, mostCut):
			whole = append(whole, face)
		case f.several():
			f.note("tile %s left out: it reaches off the picture", face.Tile)
		default:
			return f.ask.problem("the tile reaches off the picture", "photograph it again with the whole tile in the picture")
		}
	}
	f.Faces = whole
	return nil
}

// mostCut is how far a tile may reach off the picture, as a share of its longer
// side: the edges of a tile are not read.
const mostCut = 0.03

// outlined puts outlines that were drawn by hand in place of those found; on a
// board, also of tiles that were not found.
func (f *finding) outlined() {
	for _, h := range f.ask.byHand() {
		if !h.Drawn || h.Card {
			continue
		}
		drawn := Face{Tile: h.Tile, Quad: quadOfHand(h.Outline), Found: FoundByHand}
		at := slices.IndexFunc(f.Faces, func(f Face) bool { return f.Tile == h.Tile })
		if h.Tile == 0 && len(f.Faces) == 1 {
			at = 0
		}
		_, planned := f.ask.Wall.Tile(h.Tile)
		switch {
		case at >= 0:
			drawn.Tile = f.Faces[at].Tile
			f.Faces[at] = drawn
		case f.Whole && planned:
			f.Faces = append(f.Faces, drawn)
		}
	}
}
