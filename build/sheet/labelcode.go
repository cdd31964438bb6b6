package sheet

import "github.com/twodip/twodip/tiles"

// goodModule is the side of a module, mm, from which on a phone's photo of the
// whole mat, taken from well aside, still gives the three pixels a module that
// reading a code takes; larger ones are not needed.
const goodModule = 0.6

// qrSides are the sides the QR code's square may have, quiet zone included,
// the best first: modules of goodModule where the label has room for them, and
// about 12 mm of code, 10 at least wherever the label is tall enough, where
// names need the room.
func (l *labeler) qrSides(due []tiles.Tile, in area) []float64 {
	modules := l.modules(due)
	if modules == 0 {
		return []float64{0}
	}
	whole := func(code float64) float64 { return code * modules / (modules - 2*quiet) }
	most := min(l.sheet.Height, in.w*0.45)
	least := min(max(whole(10.2), min(whole(12), in.w*0.3)), most)
	switch {
	case isWide(in):
		most = min(most, l.sheet.Height-1-l.notTested().tall(), in.w*0.36)
	case in.h >= 16:
		most = min(most, in.h*0.72)
	}
	return []float64{max(least, min(goodModule*modules, most)), least}
}

// modules is how many modules the finest code has across, quiet zone included:
// the last number is the longest. 0 = a code cannot hold the address.
func (l *labeler) modules(due []tiles.Tile) float64 {
	c, _, err := codeFor(due[len(due)-1].Number, l.job.Wall.Address, l.sheet.Height)
	if err != nil {
		return 0
	}
	return float64(c.side + 2*quiet)
}

// codeLeft is where the code's square begins: at the label's right edge, which
// its quiet zone may reach, but with no ink where printers leave paper white.
func (l *labeler) codeLeft(a area) float64 {
	return min(a.x+a.w, l.w-edge+l.layout.quiet) - l.layout.qr
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
	x, y := l.codeLeft(a), a.y+(a.h-side)/2
	if !way.wide {
		if way.drawn {
			y = a.y
		}
		l.qr(x, y, side, c)
		return nil
	}
	food := l.notTested()
	if fits := side+food.tall() <= a.h-1; fits {
		y = a.y + (a.h-side-food.tall())/2
		if !t.Pair.Single() {
			l.blockMiddle(x+side/2, y+side, food)
		}
	}
	l.qr(x, y, side, c)
	return nil
}

// notTested is what stands under the code of two coats.
func (l *labeler) notTested() block {
	return l.set(style{pt: 6}, []string{"not tested", "for food"})
}
