package target

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
)

// Sizes on the board, mm.
const (
	boardMark  = 40.0 // side of a mark
	boardInset = 5.0  // from the board's edge to a mark: its white quiet zone
	boardClear = 15.0 // from a mark to the nearest tile or tag
	headTall   = 60.0 // the most that the printed grid's heads take above the tiles; to their left they take a column
	headGap    = 6.0  // from a mark to the heads: its white edge and a little more
	TagSize    = 14.0 // side of a tile's tag
	tagClear   = 3.0  // the least between a tag and the tiles above and below it
	sideGap    = 10.0 // between two tiles in a row, where wall.yaml does not say
	tagGap     = 8.0  // between a tile and its tag, where wall.yaml does not say: a thick tile hides what is near it
)

// BoardLayout is the board: where the marks stand, and each tile with its tag.
type BoardLayout struct {
	Width, Height float64
	Marks         []Mark // eight, from the top left corner clockwise
	Places        []Place
	PitchX        float64
	PitchY        float64
}

// Place is where one tile hangs: its outline and, under it, its tag.
type Place struct {
	Tile        tiles.Number
	Row, Column int // 0 and up: first glaze down the side, second along the top
	Face        Rect
	Tag         Mark
}

// Board lays out the wall's own tiles that are fired or planned: a row a first
// glaze, a column a second one, in the order of the glaze list; a single
// stands where its glaze meets itself, or, where doubles hang there, in a
// column of its own before the others. Sizes that cannot be are an error.
func Board(w tiles.Wall) (BoardLayout, error) {
	places := grid(w)
	columns, rows := 1, 1
	for _, p := range places {
		columns, rows = max(columns, p.Column+1), max(rows, p.Row+1)
	}
	b := BoardLayout{PitchX: w.Photo.Board.PitchX, PitchY: w.Photo.Board.PitchY, Places: places}
	if err := b.pitch(w.Settings.Tile); err != nil {
		return BoardLayout{}, err
	}
	left, top, err := b.size(w.Photo.Board, float64(columns)*b.PitchX, float64(rows)*b.PitchY)
	if err != nil {
		return BoardLayout{}, err
	}
	for i := range b.Places {
		b.hang(&b.Places[i], left, top, w.Settings.Tile)
	}
	b.ring()
	return b, nil
}

func (b *BoardLayout) pitch(tile tiles.Shape) error {
	if tile.Width <= 0 || tile.Height <= 0 {
		return errNoSize
	}
	if b.PitchX == 0 {
		b.PitchX = max(tile.Width, TagSize) + sideGap
	}
	if b.PitchY == 0 {
		b.PitchY = tile.Height + TagSize + 2*tagGap
	}
	if b.PitchX < tile.Width || b.PitchX < TagSize*1.25 {
		return tiles.Problem{File: "wall.yaml", What: fmt.Sprintf("tiles of %g mm do not hang %g mm apart", tile.Width, b.PitchX), Do: "give board: pitch-x from one tile's left edge to the next one's"}
	}
	if least := tile.Height + TagSize + 2*tagClear; b.PitchY < least {
		return tiles.Problem{File: "wall.yaml", What: fmt.Sprintf("a pitch-y of %g mm leaves no room for the tags under the tiles", b.PitchY), Do: fmt.Sprintf("give board: pitch-y of %g mm or more", least)}
	}
	return nil
}

// size takes the board's size from the settings, or what the tiles, the heads
// of the printed grid and the marks need, and says where the tiles begin.
func (b *BoardLayout) size(given tiles.Board, wide, high float64) (left, top float64, err error) {
	const ring = boardInset + boardMark
	left, top = ring+headGap+b.PitchX, ring+headGap+min(b.PitchY, headTall)
	wide, high = left+wide+boardClear+ring, top+high+boardClear+ring
	b.Width, b.Height = given.Width, given.Height
	if b.Width == 0 {
		b.Width = wide
	}
	if b.Height == 0 {
		b.Height = high
	}
	if b.Width < wide || b.Height < high {
		return 0, 0, tiles.Problem{File: "wall.yaml",
			What: fmt.Sprintf("a board of %g × %g mm is too small for the tiles, their heads and eight marks", b.Width, b.Height),
			Do:   fmt.Sprintf("it takes %g × %g mm", wide, high)}
	}
	return left + (b.Width-wide)/2, top + (b.Height-high)/2, nil
}

// hang puts a tile in its cell, and its tag in the middle of the room under it.
func (b *BoardLayout) hang(p *Place, left, top float64, tile tiles.Shape) {
	x := left + float64(p.Column)*b.PitchX + (b.PitchX-tile.Width)/2
	y := top + float64(p.Row)*b.PitchY
	p.Face = Rect{X: x, Y: y, W: tile.Width, H: tile.Height}
	gap := min((b.PitchY-tile.Height-TagSize)/2, tagGap)
	p.Tag = Mark{ID: -1, Bits: Tag(p.Tile), Rect: Rect{
		X: x + (tile.Width-TagSize)/2, Y: y + tile.Height + gap, W: TagSize, H: TagSize}}
}

// ring puts the eight marks at the board's corners and edge middles.
func (b *BoardLayout) ring() {
	l, t := boardInset, boardInset
	r, m := b.Width-boardInset-boardMark, b.Height-boardInset-boardMark
	cx, cy := (b.Width-boardMark)/2, (b.Height-boardMark)/2
	for i, at := range [][2]float64{{l, t}, {cx, t}, {r, t}, {r, cy}, {r, m}, {cx, m}, {l, m}, {l, cy}} {
		b.Marks = append(b.Marks, mark(BoardTopLeft+i, at[0], at[1], boardMark))
	}
}

// grid gives every tile of the wall its row and column.
func grid(w tiles.Wall) []Place {
	both := false
	for _, t := range w.Tiles {
		both = both || hangs(t) && t.Double()
	}
	var places []Place
	for _, t := range w.Tiles {
		row, ok := index(w.Glazes, t.First)
		if !hangs(t) || !ok {
			continue
		}
		column := row
		if !t.Single() {
			if column, ok = index(w.Glazes, t.Second); !ok {
				continue
			}
		}
		switch {
		case both && t.Single():
			column = 0
		case both:
			column++
		}
		places = append(places, Place{Tile: t.Number, Row: row, Column: column})
	}
	return places
}

func hangs(t tiles.Tile) bool {
	return t.Own() && (t.Status == tiles.Fired || t.Status == tiles.Planned)
}

func index(glazes []tiles.Glaze, code string) (int, bool) {
	for i, g := range glazes {
		if tiles.SameCode(g.Code, code) {
			return i, true
		}
	}
	return 0, false
}
