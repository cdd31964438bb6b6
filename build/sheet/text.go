package sheet

import (
	"bytes"
	"strings"
)

// style is how a line of text is set. The sheets use two weights and, but for
// what must be read across a room, four sizes.
type style struct {
	pt      float64
	bold    bool
	figures bool // bold figures with an open zero, for tile numbers
}

// The four sizes.
var (
	small = style{pt: 8}
	text  = style{pt: 10}
	head  = style{pt: 13, bold: true}
	large = style{pt: 22, bold: true}
)

func (s style) heavy() style          { s.bold = true; return s }
func (s style) at(pt float64) style   { s.pt = pt; return s }
func (s style) mm() float64           { return s.pt * mmPerPoint }
func (s style) capHeight() float64    { return s.mm() * capHeight }
func (s style) figureHeight() float64 { return s.mm() * figureHeight }

// leading is the distance from one baseline to the next.
func (s style) leading() float64 { return s.mm() * 1.2 }

// width is how wide s prints, mm.
func (p *paper) width(st style, s string) float64 {
	f := p.fonts.choose(s, st)
	return f.ems(f.shown(s)) * st.mm()
}

// text prints s with its baseline's left end at x, y, and returns its width.
// Letters no font has are printed as a box; Lacks says so beforehand.
func (p *paper) text(x, y float64, st style, s string) float64 {
	if s == "" {
		return 0
	}
	f := p.fonts.choose(s, st)
	p.use(f)
	p.pdf.SetFont(f.name, "", st.pt)
	shown, at := f.shown(s), x
	for _, part := range pieces(shown) {
		p.put(at, y, part)
		at += f.ems(part.text) * st.mm()
	}
	return f.ems(shown) * st.mm()
}

// use gives a font to the document the first time it is needed. gofpdf writes
// into the bytes of a font it is given, so it gets a copy.
func (p *paper) use(f *typeface) {
	if !p.used[f] {
		p.used[f] = true
		p.pdf.AddUTF8FontFromBytes(f.name, "", bytes.Clone(f.ttf))
	}
}

// textRight prints s ending at x.
func (p *paper) textRight(x, y float64, st style, s string) {
	p.text(x-p.width(st, s), y, st, s)
}

// textMiddle prints s centered on x.
func (p *paper) textMiddle(x, y float64, st style, s string) {
	p.text(x-p.width(st, s)/2, y, st, s)
}

// bookmark lets a viewer jump to y on the page being drawn. gofpdf takes the
// words for Unicode only after some text in one of our fonts, which every page
// begins with.
func (p *paper) bookmark(y float64, s string) { p.pdf.Bookmark(bmp(clean(s)), 0, y) }

// bmp drops what a PDF string written by gofpdf cannot hold.
func bmp(s string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xFFFF {
			return standIn
		}
		return r
	}, s)
}

func lower(s string) string { return strings.ToLower(strings.TrimSpace(s)) }
