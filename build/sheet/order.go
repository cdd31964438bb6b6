package sheet

import (
	"github.com/twodip/twodip/tiles"
)

// area is a rectangle on the page, mm.
type area struct{ x, y, w, h float64 }

// order draws which glaze went first: an upright tile whose lower two thirds
// carry the first glaze, lined one way, and whose upper two thirds carry the
// second, lined the other way, so that the overlap is the crossed middle band.
// On a wall dipped from the sides the first is the left two thirds. A single
// is lined all over.
func (p *paper) order(a area, pair tiles.Pair, layout tiles.Layout) {
	d := p.path()
	first, second := dips(a, pair, layout)
	const gap = 1.05 // between lines: open enough for a copier
	hatch(d, first, gap, false)
	if !pair.Single() {
		hatch(d, second, gap, true)
	}
	p.stroke(d, hair)
	p.box(a.x, a.y, a.w, a.h, 0.3)
}

// dips says which parts of the drawn tile the two dips cover.
func dips(a area, pair tiles.Pair, layout tiles.Layout) (first, second area) {
	switch {
	case pair.Single():
		return a, area{}
	case layout == tiles.LayoutSides:
		return area{a.x, a.y, a.w * 2 / 3, a.h}, area{a.x + a.w/3, a.y, a.w * 2 / 3, a.h}
	}
	return area{a.x, a.y + a.h/3, a.w, a.h * 2 / 3}, area{a.x, a.y, a.w, a.h * 2 / 3}
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
func (p *paper) orderMarked(a area, pair tiles.Pair, layout tiles.Layout, st style) {
	if lanes(pair, layout) {
		a.w = p.markedWidth(a, pair, layout, st)
		p.order(area{a.x, a.y, a.w, a.h - st.capHeight() - 1}, pair, layout)
		p.text(a.x, a.y+a.h, st, "1st")
		p.textRight(a.x+a.w, a.y+a.h, st, "2nd")
		return
	}
	p.order(a, pair, layout)
	first, second := dips(a, pair, layout)
	x := a.x + a.w + 0.8
	base := st.capHeight() / 2
	if pair.Single() {
		p.text(x, first.y+first.h/2+base, st, "1st")
		return
	}
	third := a.h / 6 // the middle of the band that is one coat only
	p.text(x, first.y+first.h-third+base, st, "1st")
	p.text(x, second.y+third+base, st, "2nd")
}

// markedWidth is how wide orderMarked draws in an area.
func (p *paper) markedWidth(a area, pair tiles.Pair, layout tiles.Layout, st style) float64 {
	wide := p.width(st, "2nd")
	if lanes(pair, layout) {
		return max(a.w, 2*wide+1.2)
	}
	return a.w + 0.8 + wide
}

// lanes says that the dips are drawn side by side.
func lanes(pair tiles.Pair, layout tiles.Layout) bool {
	return layout == tiles.LayoutSides && !pair.Single()
}
