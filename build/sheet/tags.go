package sheet

import (
	"fmt"
	"io"
	"math"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/target"
)

// Tags writes what a wall shows once its tiles hang: a head for every row and
// column, and a strip for under every tile with its number, its pair and the
// tag that photos of the wall are read by. It is a few pages, where the wall at
// true scale is dozens that the tiles then hide.
func Tags(w io.Writer, job Job) (pages int, err error) {
	g, err := newGrid(job)
	if err != nil {
		return 0, err
	}
	s, err := newPinned(job, "Heads and tags for the wall", "Cut along the lines: a head for each row and column, a strip for right under each tile.", false)
	if err != nil {
		return 0, err
	}
	s.lang = job.Wall.Language
	t := tagSheet{pinned: s, board: g.board, longest: s.widest(job.Wall.Tiles)}
	if job.New == nil {
		t.addCards(t.headsOf(g), headCard.w, headCard.h)
	}
	u := job.Wall.Units
	s.purpose += fmt.Sprintf(" Tiles hang %s apart across, %s down.", u.Length(math.Round(g.board.PitchX)), u.Length(math.Round(g.board.PitchY)))
	t.addCards(t.strips(), t.stripWide(), t.stripTall())
	if len(s.pages) == 0 {
		return 0, ErrNothing
	}
	return s.bind(w)
}

// tagSheet lays cards of one size out, edge to edge.
type tagSheet struct {
	*pinned
	board   target.BoardLayout
	longest tiles.Number // the widest on the wall
}

// headCard is the size of a head, mm: code to be read from the back row, name
// from nearby.
var headCard = size{58, 34}

// card is something to cut out, drawn in its area.
type card func(a area)

// addCards adds pages of cards, as many across and down as the page holds.
func (t tagSheet) addCards(cards []card, wide, tall float64) {
	body := t.body()
	across, down := max(1, int(body.w/wide)), max(1, int(body.h/tall))
	for from := 0; from < len(cards); from += across * down {
		page := cards[from:min(from+across*down, len(cards))]
		t.add(func(body area) {
			for i, draw := range page {
				a := area{body.x + float64(i%across)*wide, body.y + float64(i/across)*tall, wide, tall}
				draw(a)
				t.box(a.x, a.y, a.w, a.h, hair)
			}
		})
	}
}

// headsOf is a head for every row and every column.
func (t tagSheet) headsOf(g *wallGrid) []card {
	var cards []card
	for _, glaze := range g.job.Wall.Glazes {
		cards = append(cards, func(a area) { t.head(a, "1st", "→", clean(glaze.Code), clean(glaze.Name)) })
	}
	for _, c := range g.columns {
		if c.alone {
			cards = append(cards, func(a area) { t.head(a, "1st", "↓", "alone", "one coat") })
			continue
		}
		cards = append(cards, func(a area) { t.head(a, "2nd", "↓", clean(c.glaze.Code), clean(c.glaze.Name)) })
	}
	return cards
}

// head draws one head: which coat it names, its code large, its name.
func (t tagSheet) head(a area, which, arrow, code, name string) {
	const pad = 2.5
	t.text(a.x+pad, a.y+4.8, text.heavy(), which)
	t.textRight(a.x+a.w-pad, a.y+4.8, text.heavy(), arrow)
	st := style{pt: 42, bold: true}
	if wide := t.width(st, code); wide > a.w-2*pad {
		st.pt *= (a.w - 2*pad) / wide
	}
	t.textMiddle(a.x+a.w/2, a.y+9.8+st.capHeight(), st, code)
	below := 9.8 + st.capHeight() + descent*st.mm() + 1 // clear of the tail of a Q
	b, err := t.fit(name, text, a.w-2*pad, a.h-below-0.5, leastLabel)
	if err != nil {
		t.codeAlone(code, "the heads")
		return
	}
	t.blockMiddle(a.x+a.w/2, a.y+below, b)
}

// strips is a strip for every tile that hangs or will hang.
func (t tagSheet) strips() []card {
	var cards []card
	for _, p := range t.board.Places {
		if t.job.New != nil && !t.job.New[p.Tile] {
			continue
		}
		one, ok := t.job.Wall.Tile(p.Tile)
		if ok {
			cards = append(cards, func(a area) { t.strip(a, p, one) })
		}
	}
	return cards
}

// A strip is as wide as its tile or a little wider, for its tag, and as tall as
// the tag with what must stay white around it. Its upper edge touches the tile.
func (t tagSheet) stripWide() float64 {
	p := t.board.Places[0]
	return max(p.Face.W, p.Tag.W+2*stripPad)
}

func (t tagSheet) stripTall() float64 {
	p := t.board.Places[0]
	return p.Tag.Y + p.Tag.H - (p.Face.Y + p.Face.H) + stripPad
}

const stripPad = 2.5

// strip draws one strip. The tag stands under the tile where the photo's reader
// looks for it; number and pair share what is left beside it.
func (t tagSheet) strip(a area, p target.Place, one tiles.Tile) {
	x := a.x + (a.w-p.Face.W)/2
	d := t.path()
	t.mark(d, p.Tag, x-p.Face.X, a.y-(p.Face.Y+p.Face.H))
	t.fill(d)
	left := x + p.Tag.X - p.Face.X // of the tag
	room := area{a.x + 1.2, a.y, left - a.x - 3.2, a.h}
	other := area{left + p.Tag.W + 2, a.y, a.x + a.w - left - p.Tag.W - 3.2, a.h}
	if other.w > room.w+4 {
		room, other = other, area{}
	}
	st := t.numberStyle(t.longest, room.w, min(a.h*0.42, 7))
	y := a.y + a.h*0.30 + st.figureHeight()/2
	t.number(room.x, y, st, one.Number)
	t.stripPair(room, other, a, one)
}

// stripPair says the pair in two short lines: at the right of the tag, or under
// the number where the tag stands at the side.
func (t tagSheet) stripPair(room, other area, a area, one tiles.Tile) {
	lines := []string{"1st " + tiles.Apart(clean(one.First)), "→ 2nd " + tiles.Apart(clean(one.Second))}
	if one.Single() {
		lines[1] = "alone"
	}
	at, y := other, a.y+a.h*0.30
	if other.w < 8 {
		at, y = room, a.y+a.h*0.66
	}
	st := style{pt: 7, bold: true}
	for _, l := range lines {
		for st.pt > leastLabel-1.5 && t.width(st, l) > at.w {
			st.pt -= 0.25
		}
	}
	for i, l := range lines {
		t.text(at.x, y+float64(i)*st.leading(), st, l)
	}
}
