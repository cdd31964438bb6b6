package sheet

import (
	"math"

	"github.com/twodip/twodip/tiles"
)

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
	best := max(least, min(goodModule*modules, most))
	if l.dot > 0 {
		return []float64{l.wholeDots(best, modules), l.wholeDots(least, modules)}
	}
	return []float64{best, least}
}

// wholeDots is the side, not above the one asked for, whose modules are whole
// dots of a label printer: then no module prints a dot wider than another.
func (l *labeler) wholeDots(side, modules float64) float64 {
	return max(1, math.Floor(side/modules/l.dot+1e-6)) * l.dot * modules
}

// onDots is a place moved to the printer's next dot.
func (l *labeler) onDots(v float64) float64 {
	if l.dot == 0 {
		return v
	}
	return math.Round(v/l.dot) * l.dot
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
	return min(a.x+a.w, l.w-l.edge+l.layout.quiet) - l.layout.qr
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
	x, y := l.onDots(l.codeLeft(a)), a.y+(a.h-side)/2
	food := l.notTested()
	switch fits := side+food.tall() <= a.h-1; {
	case !way.wide && way.drawn:
		y = a.y + l.rollTop()
	case way.wide && fits:
		y = a.y + (a.h-side-food.tall())/2
		if !t.Pair.Single() {
			l.blockMiddle(x+side/2, y+side, food)
		}
	}
	if l.dot > 0 {
		whole := l.wholeDots(side, float64(c.side+2*quiet))
		x, y = l.onDots(x+side-whole), l.onDots(y+(side-whole)/2)
		side = whole
	}
	l.qr(x, y, side, c)
	return nil
}

// rollTop keeps a code at a label's upper edge clear of where a label printer
// begins.
func (l *labeler) rollTop() float64 {
	if l.dot > 0 {
		return max(0, l.edge-l.layout.quiet)
	}
	return 0
}

// notTested is what stands under the code of two coats; on a small label it
// stands beside the number, or along the foot.
func (l *labeler) notTested() block {
	return l.set(style{pt: 6}, []string{"not tested", "for food"})
}
