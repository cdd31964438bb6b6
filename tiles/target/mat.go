package target

import (
	"fmt"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// Sizes on the mat, mm.
const (
	matMark   = 20.0 // side of a mark
	matInset  = 12.0 // from the paper's edge to a mark: clear of what printers cannot ink
	matClear  = 15.0 // from a mark to the tile: a thick tile hides what is near it
	matRoom   = 6.0  // around the tile's outline, so that a hand can lay it down
	matGap    = 10.0 // white between two places
	labelWide = 84.0
	labelHigh = 36.0
	refWide   = 90.0 // the most the reference's place takes
	refNarrow = 60.0 // the least
)

// Page is the mat's paper and what stands where on it. Nothing is printed in
// Paper: it is where the light across the page is read.
type Page struct {
	Width, Height float64
	Marks         [4]Mark // top left, top right, bottom right, bottom left
	Words         Rect    // for the name and the five lines of how-to
	Spot
	Beside    *Spot  // of the second tile, on the mat for two; nil = the mat is for one
	Reference Rect   // where the grey card or chart is laid; empty on the mat for two
	Paper     []Rect // left blank
}

// Spot is where one tile lies on the mat with its label.
type Spot struct {
	Tile      Rect // the tile's own outline
	TilePlace Rect // the tile's outline with room around it
	Label     Rect // where the label is laid
}

// Spots are the page's one or two, from the left.
func (p *Page) Spots() []Spot {
	if p.Beside == nil {
		return []Spot{p.Spot}
	}
	return []Spot{p.Spot, *p.Beside}
}

// Mat lays out the page that one tile is photographed on, for the paper and
// the tile of the settings. A tile without size, or too large for the page, is
// an error that says so.
func Mat(s tiles.Settings) (Page, error) {
	p := sheetOf(s)
	p.corners(0)
	p.Label = Rect{X: (p.Width - labelWide) / 2, Y: p.Height - matInset - labelHigh, W: labelWide, H: labelHigh}
	if err := p.places(s.Tile); err != nil {
		return Page{}, err
	}
	p.blank()
	return p, nil
}

// sheetOf is the paper with room for the words.
func sheetOf(s tiles.Settings) Page {
	p := Page{Width: 215.9, Height: 279.4}
	if strings.EqualFold(s.Paper, "a4") {
		p.Width, p.Height = 210, 297
	}
	side := matInset + matMark
	p.Words = Rect{X: side + 5, Y: matInset, W: p.Width - 2*side - 10, H: 28}
	return p
}

// corners puts the marks into the corners, each turn corners further clockwise
// than on the mat for one tile.
func (p *Page) corners(turn int) {
	right, bottom := p.Width-matInset-matMark, p.Height-matInset-matMark
	for i, at := range [4][2]float64{{matInset, matInset}, {right, matInset}, {right, bottom}, {matInset, bottom}} {
		p.Marks[i] = mark(MatTopLeft+(i+4-turn)%4, at[0], at[1], matMark)
	}
}

// places puts the tile left and the reference right in the band between the
// words and the label.
func (p *Page) places(tile tiles.Shape) error {
	top := matInset + matMark + matClear
	band := Rect{X: matInset, Y: top, W: p.Width - 2*matInset, H: p.Label.Y - matGap - top}
	wide, high := tile.Width+2*matRoom, tile.Height+2*matRoom
	if tile.Width <= 0 || tile.Height <= 0 {
		return errNoSize
	}
	if wide > band.W-matGap-refNarrow || high > band.H {
		return tiles.Problem{File: "wall.yaml",
			What: fmt.Sprintf("a tile of %g × %g mm does not fit on the mat beside a reference", tile.Width, tile.Height),
			Do:   fmt.Sprintf("the most is %g × %g mm on this paper; photograph larger tiles without the mat", band.W-matGap-refNarrow-2*matRoom, band.H-2*matRoom)}
	}
	ref := min(max(band.W-matGap-wide, refNarrow), refWide)
	left := band.W - matGap - ref
	p.TilePlace = Rect{X: band.X + (left-wide)/2, Y: band.Y + (band.H-high)/2, W: wide, H: high}
	p.Tile = p.TilePlace.Grow(-matRoom)
	p.Reference = Rect{X: band.X + band.W - ref, Y: band.Y + max((band.H-130)/2, 0), W: ref, H: min(band.H, 130)}
	return nil
}

var errNoSize = tiles.Problem{File: "wall.yaml", What: "the tile has no width or height", Do: "give tile: width and height in millimetres, fired"}

// leave says that a part of the paper stays blank, where it is large enough to
// be looked at.
func (p *Page) leave(x0, y0, x1, y1 float64) {
	if x1-x0 >= 4 && y1-y0 >= 4 {
		p.Paper = append(p.Paper, Rect{X: x0, Y: y0, W: x1 - x0, H: y1 - y0})
	}
}

// blank lists the paper that nothing is printed on: beside and above the
// places, between them, and on both sides of the label.
func (p *Page) blank() {
	const edge = 3.0
	right := p.Width - matInset
	above := p.Words.Y + p.Words.H + 2
	top, bottom := p.Marks[0].Y+matMark+matClear, p.Label.Y-matGap
	p.leave(matInset, above-2+edge, right, top-1)
	p.leave(matInset, top, p.TilePlace.X-edge, bottom)
	p.leave(p.TilePlace.X+p.TilePlace.W+edge, top, p.Reference.X-edge, bottom)
	p.leave(p.Reference.X, top, right, p.Reference.Y-edge)
	p.leave(p.Reference.X, p.Reference.Y+p.Reference.H+edge, right, bottom)
	p.leave(matInset, bottom+1, right, p.Label.Y-edge)
	side := matInset + matMark + 5
	p.leave(side, p.Label.Y, p.Label.X-edge, p.Height-matInset)
	p.leave(p.Label.X+labelWide+edge, p.Label.Y, p.Width-side, p.Height-matInset)
}
