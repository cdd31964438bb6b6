package sheet

import (
	"github.com/twodip/twodip/tiles"
)

// area is a rectangle on the page, mm.
type area struct{ x, y, w, h float64 }

// order draws which glaze went first, on an upright tile: where the first coat
// is it is lined one way, where the second is the other way, so that the
// overlap is crossed. The coats lie where the wall's tiles are dipped, and the
// foot that stays bare stays white.
func (p *paper) order(a area, pair tiles.Pair, shape tiles.Shape) {
	d := p.path()
	const gap = 1.05 // between lines: open enough for a copier
	for i, on := range drawnCoats(a, pair, shape) {
		hatch(d, on, gap, i == 1)
	}
	p.stroke(d, hair)
	p.box(a.x, a.y, a.w, a.h, 0.3)
}

// drawnCoats says which part of the drawn tile each coat covers, the first
// before the second: where tiles.Shape.Coats puts it on the face. A tile
// without a size is drawn in thirds.
func drawnCoats(a area, pair tiles.Pair, shape tiles.Shape) []area {
	if shape.Width <= 0 || shape.Height <= 0 {
		shape = tiles.Shape{Width: 3, Height: 3, Layout: shape.Layout, FirstDip: 2, SecondDip: 2}
	}
	var on []area
	for _, c := range shape.Coats(pair) {
		across, down := a.w/shape.Width, a.h/shape.Height
		on = append(on, area{a.x + c.On.X*across, a.y + c.On.Y*down, c.On.W * across, c.On.H * down})
	}
	return on
}

// hatch adds slanted lines, gap mm apart, that end at the area's edges: rising
// to the right, or falling.
func hatch(d *path, a area, gap float64, falling bool) {
	const root2 = 1.4142135623730951
	step := gap * root2
	for c := step / 2; c < a.w+a.h; c += step {
		// The line x + y = c, measured from the area's top left corner.
		x1, y1 := max(0, c-a.h), min(c, a.h)
		x2, y2 := min(c, a.w), max(0, c-a.w)
		if falling {
			x1, x2 = a.w-x1, a.w-x2
		}
		d.move(a.x+x1, a.y+y1)
		d.to(a.x+x2, a.y+y2)
	}
}

// orderMarked draws the tile with "1st" and "2nd" beside the bands they name,
// to its right; on a wall dipped from the sides below its lanes.
func (p *paper) orderMarked(a area, pair tiles.Pair, shape tiles.Shape, st style) {
	if lanes(shape) {
		a.w = p.markedWidth(a, pair, shape, st)
		p.order(area{a.x, a.y, a.w, a.h - st.capHeight() - 1}, pair, shape)
		if pair.Single() {
			p.textMiddle(a.x+a.w/2, a.y+a.h, st, "1st")
			return
		}
		p.text(a.x, a.y+a.h, st, "1st")
		p.textRight(a.x+a.w, a.y+a.h, st, "2nd")
		return
	}
	p.order(a, pair, shape)
	x := a.x + a.w + 0.8
	coats := drawnCoats(a, pair, shape)
	base := st.capHeight() / 2
	if pair.Single() {
		p.text(x, coats[0].y+coats[0].h/2+base, st, "1st")
		return
	}
	first, second := markHeights(a, coats, st)
	p.text(x, first+base, st, "1st")
	p.text(x, second+base, st, "2nd")
}

// markHeights is how high "1st" and "2nd" stand: at the middle of the band
// that is that coat alone, and where both coats are everywhere a third from
// either end; always one clear above the other.
func markHeights(a area, coats []area, st style) (first, second float64) {
	low, high := coats[0].y+coats[0].h, coats[1].y
	first = (coats[1].y + coats[1].h + low) / 2
	second = (high + coats[0].y) / 2
	if coats[0] == coats[1] {
		first, second = low-(low-high)/4, high+(low-high)/4
	}
	half := st.capHeight() / 2
	second = max(second, a.y+half)
	return min(max(first, second+st.leading()), a.y+a.h-half), second
}

// markedWidth is how wide orderMarked draws in an area.
func (p *paper) markedWidth(a area, pair tiles.Pair, shape tiles.Shape, st style) float64 {
	wide := p.width(st, "2nd")
	if lanes(shape) {
		return max(a.w, 2*wide+1.2)
	}
	return a.w + 0.8 + wide
}

// lanes says that the wall's dips are drawn side by side.
func lanes(shape tiles.Shape) bool { return shape.Layout == tiles.LayoutSides }
