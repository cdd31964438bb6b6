package target

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
)

// PairMat lays out the page that two tiles are photographed on side by side,
// such as a re-test and the wall's own tile: in one photo their difference is
// known best. Each lies over its label; there is no place for a card, for what
// a photo has wrong it has wrong of both.
//
// Its marks are the mat's, each a corner further clockwise, so that a photo
// tells the two pages apart by any two of them (see mark.PageOf).
func PairMat(s tiles.Settings) (Page, error) {
	p := sheetOf(s)
	p.corners(1)
	top, bottom := matInset+matMark+matClear, p.Marks[2].Y-markGap-labelHigh
	half := (p.Width - 2*matInset - matGap) / 2
	wide, high := s.Tile.Width+2*matRoom, s.Tile.Height+2*matRoom
	room := bottom - matGap - top
	if s.Tile.Width <= 0 || s.Tile.Height <= 0 {
		return Page{}, errNoSize
	}
	if wide > half || high > room {
		return Page{}, tiles.Problem{File: "wall.yaml",
			What: fmt.Sprintf("two tiles of %g × %g mm do not fit side by side on the mat", s.Tile.Width, s.Tile.Height),
			Do:   fmt.Sprintf("the most is %g × %g mm on this paper; photograph larger ones one after the other in the same light", half-2*matRoom, room-2*matRoom)}
	}
	at := func(x float64) Spot {
		place := Rect{X: x + (half-wide)/2, Y: top + (room-high)/2, W: wide, H: high}
		return Spot{TilePlace: place, Tile: place.Grow(-matRoom), Label: Rect{X: x + (half-labelWide)/2, Y: bottom, W: labelWide, H: labelHigh}}
	}
	second := at(matInset + half + matGap)
	p.Spot, p.Beside = at(matInset), &second
	p.blankOfPair(top, bottom-matGap)
	return p, nil
}

// markGap is the white between a mark and a label over it, mm.
const markGap = 5.0

// blankOfPair lists the paper that nothing is printed on: above, beside and
// between the tiles' places, and between the lower marks.
func (p *Page) blankOfPair(top, bottom float64) {
	const edge = 3.0
	right := p.Width - matInset
	p.leave(matInset, p.Words.Y+p.Words.H+edge, right, top-1)
	p.leave(matInset, top, p.TilePlace.X-edge, bottom)
	p.leave(p.TilePlace.X+p.TilePlace.W+edge, top, p.Beside.TilePlace.X-edge, bottom)
	p.leave(p.Beside.TilePlace.X+p.Beside.TilePlace.W+edge, top, right, bottom)
	for _, s := range p.Spots() {
		p.leave(s.TilePlace.X, top, s.TilePlace.X+s.TilePlace.W, s.TilePlace.Y-edge)
		p.leave(s.TilePlace.X, s.TilePlace.Y+s.TilePlace.H+edge, s.TilePlace.X+s.TilePlace.W, bottom)
	}
	p.leave(matInset, bottom+1, right, p.Label.Y-edge)
	side := matInset + matMark + markGap
	p.leave(side, p.Marks[2].Y, p.Width-side, p.Height-matInset)
}
