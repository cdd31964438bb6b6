package measure

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
)

// number is the tile that somebody set by hand, that the photo's name gives,
// or that its label says.
func (a Ask) number(label func() (tiles.Number, bool)) (tiles.Number, error) {
	n, ok := a.numberByHand()
	if !ok {
		n, ok = tiles.NumberFromPhoto(a.Photo)
	}
	if !ok {
		n, ok = label()
	}
	return n, a.check(n, ok)
}

func (a Ask) numberByHand() (tiles.Number, bool) {
	for _, h := range a.byHand() {
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
