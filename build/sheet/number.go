package sheet

import (
	"github.com/twodip/twodip/tiles"
)

// number prints a tile's number with its baseline's left end at x, y. Each 6
// and 9 stands on a line of its own, so that a tile held upside down is not
// read wrong. It returns the width.
func (p *paper) number(x, y float64, st style, n tiles.Number) float64 {
	s := n.String()
	w := p.text(x, y, st, s)
	bar := 0.07 * st.mm()
	d := p.path()
	under := false
	at := x
	for _, r := range s {
		wide := p.width(st, string(r))
		if r == '6' || r == '9' {
			d.rect(at+0.04*wide, y+1.2*bar, 0.92*wide, bar)
			under = true
		}
		at += wide
	}
	if under {
		p.fill(d)
	}
	return w
}

// numberTall is the height a number needs, from the figures' top to below the
// line under a 6.
func numberTall(st style) float64 { return st.figureHeight() + 2.2*0.07*st.mm() }

// numberStyle is the largest style whose figures fit in w × h mm.
func (p *paper) numberStyle(n tiles.Number, w, h float64) style {
	st := style{pt: 100, figures: true}
	byWidth := w / p.width(st, n.String())
	byHeight := h / numberTall(st)
	return st.at(st.pt * min(byWidth, byHeight))
}

// widest is the number that prints widest among the tiles.
func (p *paper) widest(ts []tiles.Tile) tiles.Number {
	best, wide := tiles.Number(0), 0.0
	for _, t := range ts {
		if w := p.width(style{pt: 10, figures: true}, t.Number.String()); w > wide {
			best, wide = t.Number, w
		}
	}
	return best
}
