package mark

import (
	"math/bits"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/target"
)

// Board is a photo of the whole board, understood.
type Board struct {
	View  View
	Marks []Found
	Tiles []Hung  // in the order of the places
	Bowed float64 // how far the board is from flat, mm, as the tags show; 0 = flat

	places []target.Mark // of the marks seen
}

// Hung is one place on the board as it was seen.
type Hung struct {
	Place  target.Place
	Face   geometry.Quad // outline of the tile's face
	Tag    geometry.Quad // outline of its tag
	Read   tiles.Number  // the tile whose tag hangs here; 0 = could not be read
	Match  float64       // how well the tag fits, up to 1
	Turned bool          // the tag hangs upside down
	Paper  float64       // light of the white about the tag, 0–1 as coded
}

// leastBoard is how many of the board's eight marks it takes.
const leastBoard = 4

// flat is how far, root mean square in pixels, marks may lie from where a flat
// board puts them.
const flatResidual = 0.5

// OnBoard finds the board in a photo, and every tile on it. thick is the
// tiles' height over the board, mm. Fewer than four marks are a Few.
func OnBoard(p Plane, found []Found, b target.BoardLayout, thick float64, l Lens35) (Board, error) {
	mine, drawn := among(found, b.Marks)
	if len(mine) < leastBoard {
		return Board{}, Few{What: "board", Seen: len(mine), Want: leastBoard, Of: len(b.Marks)}
	}
	lens := l.lens(p.W, p.H)
	v, mine, err := solve(mine, drawn, p.W, p.H, lens)
	if err != nil {
		return Board{}, err
	}
	v, mine = p.again(v, mine, b.Marks, lens)
	out := Board{View: v, Marks: mine}
	words := planned(b.Places)
	read := p.tags(&out.View, b.Places, words)
	if out.steady(read, b, lens) {
		read = p.tags(&out.View, b.Places, words)
		out.steady(read, b, lens)
	}
	_, out.places = among(out.Marks, b.Marks)
	for i, pl := range b.Places {
		h := read[i].Hung
		h.Face = out.View.quad(pl.Face, thick)
		h.Tag = out.View.quad(pl.Tag.Rect, 0)
		out.Tiles = append(out.Tiles, h)
	}
	return out, nil
}

// steady fits the view again to the marks and the tags together, and bends the
// board where a flat one does not explain what is seen. It says whether tags
// should be looked for again.
func (b *Board) steady(read []reading, h target.BoardLayout, l lens) bool {
	as := anchorsOf(among(b.Marks, h.Marks))
	marks := len(as)
	for _, r := range read {
		if r.anchor && r.Read == r.Place.Tile && !r.Turned {
			as = append(as, middleOf(r.Place.Tag.Rect, r.seen, 2))
		}
	}
	if len(as)-marks < 6 {
		return false
	}
	was := b.View
	v, err := was.fit(as, l, false)
	if err != nil {
		return false
	}
	if b.View = v; b.Bowed == 0 && v.residual(as) <= flatResidual && was.Residual <= flatResidual {
		return false
	}
	v.bow = bow{x: h.Width / 2, y: h.Height / 2, half: max(h.Width, h.Height) / 2, k: was.bow.k}
	bent, err := v.fit(as, l, true)
	if err != nil || bent.residual(as) > 0.8*v.residual(as) {
		return false
	}
	b.View, b.Bowed = bent, bent.bow.depth(h)
	return true
}

// TagSeen is a tile's own tag as it hangs upright.
type TagSeen struct {
	Quad  geometry.Quad // its black square
	Black float64       // how many of its 64 cells are inked
}

// Tags are the tags that were read, whichever tile's they are.
func (b *Board) Tags() []TagSeen {
	var out []TagSeen
	for _, h := range b.Tiles {
		if h.Read != 0 {
			out = append(out, TagSeen{Quad: h.Tag, Black: target.Cells*target.Cells - float64(bits.OnesCount64(uint64(target.Tag(h.Read))))})
		}
	}
	return out
}

// Paper is the white beside each mark's four sides, in the middle of its quiet
// zone and outwards.
func (b *Board) Paper() []geometry.Quad { return b.strips(-0.8, -0.35) }

// Ink is the black of each mark's border, in its middle.
func (b *Board) Ink() []geometry.Quad { return b.strips(0.3, 0.7) }

// strips are bands along the four sides of every mark seen, between two depths
// inside its edge, in cells.
func (b *Board) strips(from, to float64) []geometry.Quad {
	var out []geometry.Quad
	for _, m := range b.places {
		f, t := from*m.Cell(), to*m.Cell()
		long := m.W - 2*max(f, 0)
		x, y := m.X+max(f, 0), m.Y+max(f, 0)
		for _, r := range []target.Rect{
			{X: x, Y: m.Y + f, W: long, H: t - f}, {X: x, Y: m.Y + m.H - t, W: long, H: t - f},
			{X: m.X + f, Y: y, W: t - f, H: long}, {X: m.X + m.W - t, Y: y, W: t - f, H: long},
		} {
			out = append(out, b.View.quad(r, 0))
		}
	}
	return out
}
