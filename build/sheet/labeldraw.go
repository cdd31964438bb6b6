package sheet

import (
	"github.com/twodip/twodip/tiles"
)

// labelLayout is how the parts stand on a label. All labels of a sheet have
// the same, so that they read alike.
type labelLayout struct {
	wide   bool    // the drawing at the left, names beside it; otherwise names run along the foot
	drawn  bool    // room for the order drawing
	qr     float64 // side of the QR code's square with its quiet zone, mm; 0 = no room
	number style
	name   style // of names, before they shrink
}

// Type on a label is read in the hand: 5.5 points is the least.
const leastLabel = 5.5

// choose picks the layout for the label's size and the widest number.
func (l *labeler) choose(due []tiles.Tile) labelLayout {
	in := l.inside(l.place(l.sheet.Columns + 1))
	if l.sheet.Rows == 1 || l.sheet.Columns == 1 {
		in = l.inside(l.place(0))
	}
	lay := labelLayout{wide: in.w >= 50 && in.h >= 18, drawn: in.h >= 16}
	lay.qr = l.qrSide(due, in)
	widest := l.widest(due)
	switch {
	case lay.wide:
		lay.name = style{pt: min(10, in.h*0.40)}
		lay.number = l.numberStyle(widest, (in.w-lay.qr)*0.5, in.h*0.36)
	case lay.drawn:
		lay.name = style{pt: 8}
		lay.number = l.numberStyle(widest, (in.w-lay.qr)*0.58, min(lay.qr*0.7, in.h*0.36))
	default:
		lay.name = style{pt: 7}
		lay.number = l.numberStyle(widest, (in.w-lay.qr)*0.8, in.h*0.40)
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
	return min(max(least, min(want, in.w*0.3)), l.sheet.Height)
}

// label prints one tile's label. Text that belongs together is drawn together,
// because a reader for the blind follows the order of drawing.
func (l *labeler) label(a area, t tiles.Tile) error {
	in := l.inside(a)
	left := in
	left.w = in.x + in.w - min(l.layout.qr, in.w*0.45) - in.x
	var err error
	switch {
	case l.layout.wide:
		err = l.wideLabel(left, t)
	default:
		err = l.stackedLabel(in, left, t)
	}
	if err != nil {
		return err
	}
	return l.labelCode(a, in, t)
}

// labelCode draws the QR code at the right: in the middle of a wide label, at
// the top of one whose names run along the foot. Its quiet zone may reach the
// label's edge, which is white.
func (l *labeler) labelCode(a, in area, t tiles.Tile) error {
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
	if !l.layout.wide && l.layout.drawn {
		y = a.y
	}
	l.qr(x, y, side, c)
	return nil
}

// wideLabel: the order drawing over the whole height, then the number, then
// the glazes in the order of dipping.
func (l *labeler) wideLabel(in area, t tiles.Tile) error {
	mark := style{pt: min(8, in.h*0.32), bold: true}
	used := l.orderMarked(area{in.x, in.y, in.h * 0.33, in.h}, t.Pair, l.job.Wall.Settings.Tile.Layout, mark)
	x := in.x + used + 2.5
	num := l.layout.number
	l.number(x, in.y+num.figureHeight(), num, t.Number)
	top := in.y + numberTall(num) + in.h*0.06
	return l.coatsIn(area{x, top, in.x + in.w - x, in.y + in.h - top}, t.Pair)
}

// stackedLabel: number and drawing at the top, the glazes along the foot.
func (l *labeler) stackedLabel(in, left area, t tiles.Tile) error {
	num := l.layout.number
	l.number(in.x, in.y+num.figureHeight(), num, t.Number)
	top := in.y + numberTall(num) + 0.8
	if !l.layout.drawn {
		return l.coatsIn(area{in.x, top, left.w, in.y + in.h - top}, t.Pair)
	}
	top = max(top, in.y+l.layout.qr*0.86)
	h := top - in.y - 1.2
	mark := style{pt: 6, bold: true}
	wide := h*0.5 + 0.8 + l.width(mark, "2nd")
	if t.Pair.Single() || l.job.Wall.Settings.Tile.Layout != tiles.LayoutSides {
		l.orderMarked(area{left.x + left.w - wide - 0.5, in.y, h * 0.5, h}, t.Pair, l.job.Wall.Settings.Tile.Layout, mark)
	}
	return l.coatsIn(area{in.x, top, in.w, in.y + in.h - top}, t.Pair)
}
