package measure

import (
	"fmt"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/mark"
	"github.com/twodip/twodip/tiles/target"
)

// place says which tiles the photo shows and where: as somebody set by hand,
// by the marks of a board or mat, or as the one tile of its name.
func (s *scene) place(ask Ask) error {
	s.luma = mark.Gray(s.photo.Luma())
	found := mark.Find(s.luma)
	hand := ask.byHand()
	var err error
	switch board, mat := kinds(found); {
	case board > mat:
		err = s.onBoard(found, ask)
	case mat > 0:
		err = s.onMat(found, ask, hand)
	default:
		err = s.plain(ask, hand)
	}
	if err == nil {
		s.outlined(ask, hand)
	}
	return err
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
func (s *scene) plain(ask Ask, hand []tiles.ByHand) error {
	n, err := s.number(ask, hand, func() (tiles.Number, bool) { return mark.AnyLabel(s.luma) })
	if err != nil {
		return err
	}
	f, ok := outline(s.photo, s.picture(), ask.Wall.Settings.Tile, s.besides(ask))
	if !ok {
		f = middle(s.photo)
	}
	f.Tile = n
	if s.tooDark() {
		f.Warning = saidDark
	}
	s.faces = []Face{f}
	return nil
}

// besides is where a reference lies: not to be taken for the tile.
func (s *scene) besides(ask Ask) []Quad {
	if len(ask.Patches) > 1 && ask.Wall.Photo.Reference != refNone {
		if c := s.findChart(ask); c.fit != nil {
			return []Quad{c.quad.Part(-chartFrame, -chartFrame, 1+chartFrame, 1+chartFrame)}
		}
	} else if q, drawn := cardByHand(ask); drawn {
		return []Quad{q}
	}
	return nil
}

// chartFrame is how far a chart's frame reaches around its patches, as a share
// of them: it is not taken for the tile.
const chartFrame = 0.12

// number is the tile that somebody set by hand, that the photo's name gives,
// or that its label says.
func (s *scene) number(ask Ask, hand []tiles.ByHand, label func() (tiles.Number, bool)) (tiles.Number, error) {
	n, ok := byHandNumber(hand)
	if !ok {
		n, ok = tiles.NumberFromPhoto(ask.Photo)
	}
	if !ok {
		n, ok = label()
	}
	return n, ask.check(n, ok)
}

func byHandNumber(hand []tiles.ByHand) (tiles.Number, bool) {
	for _, h := range hand {
		if h.Tile != 0 {
			return h.Tile, true
		}
	}
	return 0, false
}

// check says what is wrong with a number, in words for the person who took
// the photo.
func (a Ask) check(n tiles.Number, ok bool) error {
	if !ok {
		return a.problem("its name does not begin with a tile's number, and no mark of the mat or board and no label can be read in it",
			`name it after its tile, like "7.jpg" or "7 back.jpg"; or photograph the mat or the board again: whole, in focus and without glare`)
	}
	if _, ok := a.Wall.Tile(n); !ok {
		return a.problem(fmt.Sprintf("the plan has no tile %s", n), "name it after a tile of tiles/plan.csv")
	}
	return nil
}

func (a Ask) problem(what, do string) error {
	return tiles.Problem{File: "tiles/photos/" + a.Photo, What: what, Do: do}
}

// outlined puts outlines that were drawn by hand in place of those found; on a
// board, also of tiles that were not found.
func (s *scene) outlined(ask Ask, hand []tiles.ByHand) {
	for _, h := range hand {
		if !h.Drawn || h.Card {
			continue
		}
		drawn := Face{Tile: h.Tile, Quad: quadOfHand(h.Outline), Found: FoundByHand}
		at := slices.IndexFunc(s.faces, func(f Face) bool {
			return f.Tile == h.Tile || h.Tile == 0 && len(s.faces) == 1
		})
		_, planned := ask.Wall.Tile(h.Tile)
		switch {
		case at >= 0:
			drawn.Tile = s.faces[at].Tile
			s.faces[at] = drawn
		case s.whole && planned:
			s.faces = append(s.faces, drawn)
		}
	}
}
