package sheet

import (
	"strings"

	"github.com/twodip/twodip/tiles"
)

// labelLayout is the type and the QR code's size that all labels of a sheet
// share, so that they read alike.
type labelLayout struct {
	qr     float64 // side of the QR code's square with its quiet zone, mm; 0 = no room
	quiet  float64 // width of that zone, mm
	number style
	name   style      // of names, before they shrink
	ways   []labelWay // the usual way first; the next ones where a name does not fit
	exact  bool       // names keep the layout's size and stand one way: all labels hold it
	coats  coatWay    // that way
}

// labelWay is one way for the parts to stand on a label.
type labelWay struct {
	wide   bool    // the drawing at the left, names beside it; otherwise names run along the foot
	drawn  bool    // room for the order drawing
	number float64 // the number's size, as a share of the layout's
	food   bool    // a line along the foot says that two coats are not tested for food
}

// Type on a label is read in the hand: 5.5 points is the least.
const leastLabel = 5.5

// choose picks the layout for the label's size and the widest number, with the
// largest QR code that leaves room for every name.
func (l *labeler) choose(due []tiles.Tile) labelLayout {
	in := l.inside(l.place(0))
	if l.sheet.Columns > 2 && l.sheet.Rows > 2 {
		in = l.inside(l.place(l.sheet.Columns + 1)) // one that no edge of the paper narrows
	}
	var lay labelLayout
	for _, side := range l.qrSides(due, in) {
		lay = l.layoutFor(due, in, side)
		if same, ok := l.alike(lay, due); ok {
			return same
		}
		if l.holds(lay, due) {
			break
		}
	}
	return lay
}

// alike is the layout narrowed to one way and one size of name that every label
// of the printing holds, the largest there is, so that labels side by side read
// alike; ok is false where a long name asks for a size of its own.
func (l *labeler) alike(lay labelLayout, due []tiles.Tile) (labelLayout, bool) {
	const step = 0.25
	for _, way := range lay.ways {
		one := lay
		one.ways, one.exact = []labelWay{way}, true
		for ; one.name.pt >= max(leastLabel, lay.name.pt*0.7); one.name.pt -= step {
			for _, one.coats = range []coatWay{beside, below} {
				l.names = map[setKey]setCoat{}
				if l.holds(one, due) {
					return one, true
				}
			}
		}
	}
	l.names = map[setKey]setCoat{}
	return lay, false
}

// isWide says that a label has room for the names beside the drawing.
func isWide(in area) bool { return in.w >= 50 && in.h >= 18 }

// layoutFor is the layout beside a QR code of the given side.
func (l *labeler) layoutFor(due []tiles.Tile, in area, qr float64) labelLayout {
	lay := labelLayout{qr: qr}
	if qr > 0 {
		lay.quiet = quiet * qr / l.modules(due)
	}
	widest := l.widest(due)
	stacked := labelWay{false, in.h >= 16, 1, in.h >= 16}
	bare := labelWay{false, in.h >= 16, 1, false}
	switch {
	case isWide(in):
		lay.name = style{pt: min(10, in.h*0.40)}
		lay.number = l.numberStyle(widest, (in.w-lay.qr)*0.5, min(in.h*0.36, 11.5))
		lay.ways = []labelWay{{true, true, 1, false}, {true, true, 0.6, false}, stacked, bare}
	case in.h >= 16:
		lay.name = style{pt: 8}
		lay.number = l.numberStyle(widest, (in.w-lay.qr)*0.58, min(lay.qr*0.7, in.h*0.36))
		lay.ways = []labelWay{stacked, bare}
	default:
		lay.name = style{pt: 7}
		lay.number = l.numberStyle(widest, (in.w-lay.qr)*0.8, in.h*0.40)
		lay.ways = []labelWay{stacked, {false, false, 0.7, false}}
	}
	return lay
}

// holds says that every label can be set in a layout.
func (l *labeler) holds(lay labelLayout, due []tiles.Tile) bool {
	l.layout = lay
	for i, t := range due {
		if _, _, err := l.fitted(l.place(i%(l.sheet.Columns*l.sheet.Rows)), t); err != nil {
			return false
		}
	}
	return true
}

// setLabel is a label whose names are set.
type setLabel struct {
	labelParts
	coats [2]setCoat
}

// fitted sets a tile's label in the first way that holds its names.
func (l *labeler) fitted(a area, t tiles.Tile) (set setLabel, way labelWay, err error) {
	for _, way = range l.layout.ways {
		set.labelParts = l.parts(a, way, t)
		if set.coats, err = l.setCoats(set.room, t.Pair); err == nil {
			break
		}
	}
	return set, way, err
}

// label prints one tile's label. Text that belongs together is drawn together,
// because a reader for the blind follows the order of drawing.
func (l *labeler) label(a area, t tiles.Tile) error {
	in := l.inside(a)
	set, way, err := l.fitted(a, t)
	if err != nil {
		return err
	}
	l.number(set.numberX, in.y+set.number.figureHeight(), set.number, t.Number)
	l.repeats(a, set.labelParts, t)
	l.printCoats(set.room, set.coats)
	l.foodWords(set.labelParts, way, a, t)
	l.firedWords(set.labelParts, way, a, t)
	if way.drawn {
		l.orderMarked(set.drawing, t.Pair, l.job.Wall.Settings.Tile, set.mark)
	}
	return l.labelCode(a, way, t)
}

// labelParts says where each part of a label stands.
type labelParts struct {
	number  style
	numberX float64
	drawing area
	mark    style // "1st" and "2nd" at the drawing
	room    area  // for the coats' names
}

func (l *labeler) parts(a area, way labelWay, t tiles.Tile) labelParts {
	in := l.inside(a)
	p := labelParts{number: l.layout.number.at(l.layout.number.pt * way.number)}
	left := min(l.codeLeft(a)-in.x, in.w) // what the code leaves
	low := in.y + numberTall(p.number)
	switch {
	case way.wide:
		p.mark = style{pt: min(8, in.h*0.32), bold: true}
		p.drawing = area{in.x, in.y, in.h * 0.33, in.h}
		// As far in on a single as on a pair, so that numbers stand under each other.
		wide := l.markedWidth(p.drawing, tiles.Pair{}, l.job.Wall.Settings.Tile, p.mark)
		p.numberX = in.x + max(wide, l.markedWidth(p.drawing, tiles.Pair{Second: "2"}, l.job.Wall.Settings.Tile, p.mark)) + 2.5
		low += in.h * 0.06
		p.room = area{p.numberX, low, in.x + left - p.numberX, in.y + in.h - low}
	case way.drawn:
		low = max(low+0.8, in.y+l.layout.qr*0.86)
		p.mark = style{pt: 6, bold: true}
		p.drawing = area{0, in.y, (low - in.y - 1.2) * 0.5, low - in.y - 1.2}
		p.drawing.x = in.x + left - 0.5 - l.markedWidth(p.drawing, t.Pair, l.job.Wall.Settings.Tile, p.mark)
		p.numberX = in.x
		p.room = area{in.x, low, in.w, in.y + in.h - low}
		if way.food {
			p.room.h -= foodLine
		}
	default:
		p.numberX = in.x
		p.room = area{in.x, low + 0.8, left, in.y + in.h - low - 0.8}
	}
	return p
}

// foodLine is the height of the line along a small label's foot, mm.
const foodLine = 2.4

// foodWords says on a small label of two coats that they were not tested for
// food: along the foot, or beside the number where a label is too low for that.
// A wide label says it under its code.
func (l *labeler) foodWords(p labelParts, way labelWay, a area, t tiles.Tile) {
	if way.wide || t.Single() {
		return
	}
	in := l.inside(a)
	st := style{pt: leastLabel}
	if way.drawn && !way.food {
		l.small++
		return
	}
	if way.drawn {
		if b, ok := l.fitWords("two coats: not tested for food", st, in.w, foodLine+1, 4.5); ok {
			l.text(in.x, in.y+in.h, b.style, b.lines[0])
		}
		return
	}
	x := p.numberX + l.width(p.number, t.Number.String()) + 1.2
	if b, ok := l.fitWords("not tested for food", st, l.codeLeft(a)-x-0.5, p.number.figureHeight()+1, 4); ok {
		l.block(x, in.y, b)
	}
}

// firedWords says beside the number of a wide label what the tile was made of
// and fired to, and leaves a line for the day.
func (l *labeler) firedWords(p labelParts, way labelWay, a area, t tiles.Tile) {
	const least = 10.5
	x := p.numberX + l.width(p.number, l.longest.String()) + 1.5
	room := l.codeLeft(a) + l.layout.quiet/2 - x
	if !way.wide || !t.Own() {
		return
	}
	st := style{pt: leastLabel}
	said := []string{"cone " + l.cone(), "fired _____"}
	if body := clean(l.job.Wall.Clay.Body); body != "" {
		said = []string{said[0], body, said[1]}
	}
	if room < least {
		l.firedAbove(a, strings.Join(said, ", "))
		return
	}
	y := l.inside(a).y + st.capHeight()
	for i, s := range said {
		l.inLine(x, y+float64(i)*st.leading(), room, st, s)
	}
}

// firedAbove says it above the code, where a number leaves no room beside it.
func (l *labeler) firedAbove(a area, said string) {
	top := l.inside(a).y
	room := (a.h-l.layout.qr-l.notTested().tall())/2 + a.y - top
	if b, ok := l.fitWords(said, style{pt: leastLabel}, l.layout.qr, room, leastLabel); ok && l.layout.qr > 0 {
		l.blockMiddle(l.onDots(l.codeLeft(a))+l.layout.qr/2, top, b)
	}
}

// repeats says after the number which tile a control or a re-test repeats.
func (l *labeler) repeats(a area, p labelParts, t tiles.Tile) {
	if t.Own() {
		return
	}
	words := "repeats " + t.Repeats.String()
	if t.Retest() {
		words += ", batch " + clean(t.SayBatches())
	}
	x := p.numberX + l.width(p.number, t.Number.String()) + 1.5
	room := l.codeLeft(a) - x
	if p.drawing.x > p.numberX {
		room = p.drawing.x - x
	}
	if b, ok := l.fitWords(words, small, room-1, p.number.figureHeight()+1, leastLabel); ok {
		l.block(x, l.inside(a).y, b)
	}
}
