package sheet

import (
	"github.com/twodip/twodip/tiles"
)

// labelLayout is the type and the QR code's size that all labels of a sheet
// share, so that they read alike.
type labelLayout struct {
	qr     float64 // side of the QR code's square with its quiet zone, mm; 0 = no room
	number style
	name   style      // of names, before they shrink
	ways   []labelWay // the usual way first; the next ones where a name does not fit
}

// labelWay is one way for the parts to stand on a label.
type labelWay struct {
	wide   bool    // the drawing at the left, names beside it; otherwise names run along the foot
	drawn  bool    // room for the order drawing
	number float64 // the number's size, as a share of the layout's
}

// Type on a label is read in the hand: 5.5 points is the least.
const leastLabel = 5.5

// choose picks the layout for the label's size and the widest number.
func (l *labeler) choose(due []tiles.Tile) labelLayout {
	in := l.inside(l.place(0))
	if l.sheet.Columns > 2 && l.sheet.Rows > 2 {
		in = l.inside(l.place(l.sheet.Columns + 1)) // one that no edge of the paper narrows
	}
	lay := labelLayout{qr: l.qrSide(due, in)}
	widest := l.widest(due)
	stacked := labelWay{false, in.h >= 16, 1}
	switch {
	case in.w >= 50 && in.h >= 18:
		lay.name = style{pt: min(10, in.h*0.40)}
		lay.number = l.numberStyle(widest, (in.w-lay.qr)*0.5, in.h*0.36)
		lay.ways = []labelWay{{true, true, 1}, {true, true, 0.6}, stacked}
	case in.h >= 16:
		lay.name = style{pt: 8}
		lay.number = l.numberStyle(widest, (in.w-lay.qr)*0.58, min(lay.qr*0.7, in.h*0.36))
		lay.ways = []labelWay{stacked}
	default:
		lay.name = style{pt: 7}
		lay.number = l.numberStyle(widest, (in.w-lay.qr)*0.8, in.h*0.40)
		lay.ways = []labelWay{stacked, {false, false, 0.7}}
	}
	return lay
}

// qrSide is the side of the QR code's square, quiet zone included: about 12 mm
// of code, 10 at least wherever the label is tall enough for them.
func (l *labeler) qrSide(due []tiles.Tile, in area) float64 {
	c, _, err := codeFor(due[len(due)-1].Number, l.job.Wall.Address, l.sheet.Height)
	if err != nil {
		return 0
	}
	whole := func(code float64) float64 { return code * float64(c.side+2*quiet) / float64(c.side) }
	least, want := whole(10.2), whole(max(12, in.h*0.5))
	return min(max(least, min(want, in.w*0.3)), l.sheet.Height, in.w*0.45)
}

// label prints one tile's label, in the first way that holds its names. Text
// that belongs together is drawn together, because a reader for the blind
// follows the order of drawing.
func (l *labeler) label(a area, t tiles.Tile) error {
	in := l.inside(a)
	var err error
	for _, way := range l.layout.ways {
		p := l.parts(in, way, t)
		var coats [2]setCoat
		if coats, err = l.setCoats(p.coats, t.Pair); err != nil {
			continue
		}
		l.number(p.numberX, in.y+p.number.figureHeight(), p.number, t.Number)
		l.repeats(in, p, t)
		l.printCoats(p.coats, coats)
		if way.drawn {
			l.orderMarked(p.drawing, t.Pair, l.dipLayout(), p.mark)
		}
		return l.labelCode(a, way, t)
	}
	return err
}

func (l *labeler) dipLayout() tiles.Layout { return l.job.Wall.Settings.Tile.Layout }

// labelParts says where each part of a label stands.
type labelParts struct {
	number  style
	numberX float64
	drawing area
	mark    style // "1st" and "2nd" at the drawing
	coats   area
}

func (l *labeler) parts(in area, way labelWay, t tiles.Tile) labelParts {
	p := labelParts{number: l.layout.number.at(l.layout.number.pt * way.number)}
	left := in.w - l.layout.qr // what the code leaves
	low := in.y + numberTall(p.number)
	switch {
	case way.wide:
		p.mark = style{pt: min(8, in.h*0.32), bold: true}
		p.drawing = area{in.x, in.y, in.h * 0.33, in.h}
		// As far in on a single as on a pair, so that numbers stand under each other.
		wide := l.markedWidth(p.drawing, tiles.Pair{}, l.dipLayout(), p.mark)
		p.numberX = in.x + max(wide, l.markedWidth(p.drawing, tiles.Pair{Second: "2"}, l.dipLayout(), p.mark)) + 2.5
		low += in.h * 0.06
		p.coats = area{p.numberX, low, in.x + left - p.numberX, in.y + in.h - low}
	case way.drawn:
		low = max(low+0.8, in.y+l.layout.qr*0.86)
		p.mark = style{pt: 6, bold: true}
		p.drawing = area{0, in.y, (low - in.y - 1.2) * 0.5, low - in.y - 1.2}
		p.drawing.x = in.x + left - 0.5 - l.markedWidth(p.drawing, t.Pair, l.dipLayout(), p.mark)
		p.numberX = in.x
		p.coats = area{in.x, low, in.w, in.y + in.h - low}
	default:
		p.numberX = in.x
		p.coats = area{in.x, low + 0.8, left, in.y + in.h - low - 0.8}
	}
	return p
}

// labelCode draws the QR code at the right: in the middle of a wide label, at
// the top of one whose names run along the foot. Its quiet zone may reach the
// label's edge, which is white. Under the code of two coats stands what they
// are not, where the label has room.
func (l *labeler) labelCode(a area, way labelWay, t tiles.Tile) error {
	side := l.layout.qr
	if side == 0 {
		return nil
	}
	c, short, err := codeFor(t.Number, l.job.Wall.Address, side)
	if err != nil {
		return err
	}
	if short {
		l.short++
	}
	x := min(a.x+a.w, l.w-edge+quiet*side/float64(c.side+2*quiet)) - side
	y := a.y + (a.h-side)/2
	if !way.wide {
		if way.drawn {
			y = a.y
		}
		l.qr(x, y, side, c)
		return nil
	}
	food := l.set(style{pt: 6}, []string{"not tested", "for food"})
	if fits := side+food.tall() <= a.h-1; fits {
		y = a.y + (a.h-side-food.tall())/2
		if !t.Pair.Single() {
			l.blockMiddle(x+side/2, y+side, food)
		}
	}
	l.qr(x, y, side, c)
	return nil
}

// repeats says after the number which tile a control or a re-test repeats.
func (l *labeler) repeats(in area, p labelParts, t tiles.Tile) {
	if t.Own() {
		return
	}
	words := "repeats " + t.Repeats.String()
	if t.Batch != "" {
		words += ", batch " + clean(t.Batch)
	}
	x := p.numberX + l.width(p.number, t.Number.String()) + 1.5
	room := in.x + in.w - l.layout.qr - x
	if p.drawing.x > p.numberX {
		room = p.drawing.x - x
	}
	if b, ok := l.fitWords(words, small, room-1, p.number.figureHeight()+1, leastLabel); ok {
		l.block(x, in.y, b)
	}
}
