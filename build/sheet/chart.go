package sheet

import "github.com/twodip/twodip/tiles/chart"

// chart adds a drawing as wide as the page, or as a share of it.
func (f *flow) chart(d chart.Drawing, share float64) {
	k := f.s.body().w * share / d.Width
	f.add(d.Height*k+3, 0, func(a area) {
		for _, m := range d.Marks {
			f.s.chartMark(a, k, m)
		}
	})
}

// chartMark draws one mark of a chart, k mm of paper for each of its own.
func (p *paper) chartMark(a area, k float64, m chart.Mark) {
	x, y, size := a.x+k*m.X, a.y+k*m.Y, k*m.Size
	switch m.Shape {
	case chart.Line:
		x2, y2 := a.x+k*m.X2, a.y+k*m.Y2
		switch {
		case m.Faint:
			p.dashed(x, y, x2, y2, hair, 0.4, 0.8)
		case len(m.Dash) > 0:
			dash := make([]float64, len(m.Dash))
			for i, length := range m.Dash {
				dash[i] = k * length
			}
			p.dashed(x, y, x2, y2, size, dash...)
		default:
			p.line(x, y, x2, y2, size)
		}
	case chart.Dot:
		p.pdf.Circle(x, y, size, "F")
	case chart.Ring:
		p.rule(thick)
		p.pdf.Circle(x, y, size, "D")
	case chart.Words:
		p.markWords(x, y, style{pt: size / mmPerPoint, bold: m.Bold}, m)
	}
}

func (p *paper) markWords(x, y float64, st style, m chart.Mark) {
	s := clean(m.Text)
	switch m.Anchor {
	case chart.Start:
		p.inLine(x, y, p.w-sideAt-x, st, s)
	case chart.Middle:
		p.textMiddle(x, y, st, s)
	case chart.End:
		p.textRight(x, y, st, s)
	}
}

// inLine prints s on one line of w mm: smaller where it must be, and cut short
// where that is not enough.
func (p *paper) inLine(x, y, w float64, st style, s string) {
	if b, ok := p.onOneLine(s, st, w); ok {
		p.text(x, y, b.style, s)
		return
	}
	st.pt = min(st.pt, leastLabel)
	if p.width(st, s) > w {
		s = s[:p.cut(s, st, w-p.width(st, "…"))] + "…"
	}
	p.text(x, y, st, s)
}

// words adds a paragraph with some air after it.
func (f *flow) words(st style, indent, after float64, s string) {
	s = clean(s)
	tall := f.s.paraTall(f.s.body().w-indent, st, s) + after
	f.add(tall, 0, func(a area) { f.s.para(a.x+indent, a.y, a.w-indent, st, s) })
}

// heading adds a line in larger letters that stays with what follows it.
func (f *flow) heading(s string, keep float64) {
	s = clean(s)
	tall := 4 + f.s.paraTall(f.s.body().w, head, s) + 1.5
	f.add(tall, keep, func(a area) {
		if a.y > f.s.body().y+1 { // the head has a rule of its own
			f.s.line(a.x, a.y+2, a.x+a.w, a.y+2, thin)
		}
		f.s.para(a.x, a.y+4, a.w, head, s)
		f.s.bookmark(a.y, s)
	})
}
