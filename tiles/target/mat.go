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
	Tile          Rect    // the tile's own outline
	TilePlace     Rect    // the tile's outline with room around it
	Label         Rect    // where the label is laid
	Reference     Rect    // where the grey card or chart is laid
	Paper         []Rect  // left blank
}

// Mat lays out the page that one tile is photographed on, for the paper and
// the tile of the settings. A tile without size, or too large for the page, is
// an error that says so.
func Mat(s tiles.Settings) (Page, error) {
	p := Page{Width: 215.9, Height: 279.4}
	if strings.EqualFold(s.Paper, "a4") {
		p.Width, p.Height = 210, 297
	}
	p.corners()
	side := matInset + matMark
	p.Words = Rect{X: side + 5, Y: matInset, W: p.Width - 2*side - 10, H: 28}
	p.Label = Rect{X: (p.Width - labelWide) / 2, Y: p.Height - matInset - labelHigh, W: labelWide, H: labelHigh}
	if err := p.places(s.Tile); err != nil {
		return Page{}, err
	}
	p.blank()
	return p, nil
}

func (p *Page) corners() {
	right, bottom := p.Width-matInset-matMark, p.Height-matInset-matMark
	p.Marks = [4]Mark{
		mark(MatTopLeft, matInset, matInset, matMark),
		mark(MatTopRight, right, matInset, matMark),
		mark(MatBottomRight, right, bottom, matMark),
		mark(MatBottomLeft, matInset, bottom, matMark),
	}
}

// places puts the tile left and the reference right in the band between the
// words and the label.
func (p *Page) places(tile tiles.Shape) error {
	top := matInset + matMark + matClear
	band := Rect{X: matInset, Y: top, W: p.Width - 2*matInset, H: p.Label.Y - matGap - top}
	wide, high := tile.Width+2*matRoom, tile.Height+2*matRoom
	if tile.Width <= 0 || tile.Height <= 0 {
		return tiles.Problem{File: "wall.yaml", What: "the tile has no width or height", Do: "give tile: width and height in millimetres, fired"}
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

// blank lists the paper that nothing is printed on: beside and above the
// places, between them, and on both sides of the label.
func (p *Page) blank() {
	const edge = 3.0
	right := p.Width - matInset
	above := p.Words.Y + p.Words.H + 2
	add := func(x0, y0, x1, y1 float64) {
		if x1-x0 >= 4 && y1-y0 >= 4 {
			p.Paper = append(p.Paper, Rect{X: x0, Y: y0, W: x1 - x0, H: y1 - y0})
		}
	}
	top, bottom := p.Marks[0].Y+matMark+matClear, p.Label.Y-matGap
	add(matInset, above-2+edge, right, top-1)
	add(matInset, top, p.TilePlace.X-edge, bottom)
	add(p.TilePlace.X+p.TilePlace.W+edge, top, p.Reference.X-edge, bottom)
	add(p.Reference.X, top, right, p.Reference.Y-edge)
	add(p.Reference.X, p.Reference.Y+p.Reference.H+edge, right, bottom)
	add(matInset, bottom+1, right, p.Label.Y-edge)
	side := matInset + matMark + 5
	add(side, p.Label.Y, p.Label.X-edge, p.Height-matInset)
	add(p.Label.X+labelWide+edge, p.Label.Y, p.Width-side, p.Height-matInset)
}
