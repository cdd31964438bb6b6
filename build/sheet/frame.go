package sheet

import (
	"fmt"
	"io"
)

// Margins of the sheets that are pinned up, mm.
const (
	sideAt = 13.0
	bodyAt = 29.0 // where the body begins below the top
	footAt = 17.0 // where it ends above the bottom
)

// pinned is a sheet of one or more pages with a title, its purpose in one
// line, and at the foot the wall, the date and the page.
type pinned struct {
	*paper
	heading string
	purpose string
	written bool // somebody writes on it: a place for who and when
	pages   []func(body area)
}

// newPinned opens a sheet in the wall's paper, upright or turned.
func newPinned(job Job, title, purpose string, turned bool) (*pinned, error) {
	s, err := paperOf(job.Wall.Paper)
	if err != nil {
		return nil, err
	}
	if turned {
		s = s.turned()
	}
	p, err := newPaper(job, s, title)
	if err != nil {
		return nil, err
	}
	return &pinned{paper: p, heading: title, purpose: purpose}, nil
}

// body is the part of a page between the head and the foot.
func (s *pinned) body() area {
	return area{sideAt, bodyAt, s.w - 2*sideAt, s.h - bodyAt - footAt}
}

// add takes one more page. Pages are drawn when their number is known.
func (s *pinned) add(draw func(body area)) { s.pages = append(s.pages, draw) }

// bind draws all pages and writes the document.
func (s *pinned) bind(w io.Writer) (pages int, err error) {
	for i, draw := range s.pages {
		if err := s.page(); err != nil {
			return 0, err
		}
		s.head()
		draw(s.body())
		s.foot(i+1, len(s.pages))
	}
	return s.write(w)
}

// head prints the title, the purpose and, where the sheet is written on, a
// line each for who and when.
func (s *pinned) head() {
	s.text(sideAt, 17, large, s.heading)
	s.inLine(sideAt, 23, s.w-2*sideAt, text, s.purpose)
	s.line(sideAt, 25.5, s.w-sideAt, 25.5, thick)
	if s.written {
		s.blank(s.w-sideAt-76, 17, 34, "Who")
		s.blank(s.w-sideAt-36, 17, 36, "When")
	}
}

// blank prints a word and a line to write on, together w mm wide.
func (p *paper) blank(x, y, w float64, label string) {
	wide := p.text(x, y, small, label)
	p.line(x+wide+1.2, y+0.8, x+w, y+0.8, thin)
}

// foot prints whose wall it is, the date and the page.
func (s *pinned) foot(page, of int) {
	y := s.h - 9.5
	s.line(sideAt, y-4, s.w-sideAt, y-4, thin)
	s.setting(sideAt, y, s.w/2-sideAt-14, small, clean(s.job.Wall.Name), "name")
	s.textMiddle(s.w/2, y, small, s.job.Date)
	s.textRight(s.w-sideAt, y, small, fmt.Sprintf("page %d of %d", page, of))
}

// para prints text wrapped to w mm with its first cap line at y, and returns
// where the next one may begin.
func (p *paper) para(x, y, w float64, st style, s string) float64 {
	lines := p.wrap(s, st, w, true)
	p.block(x, y, block{style: st, lines: lines})
	return y + float64(len(lines))*st.leading()
}

// paraTall is the height para takes.
func (p *paper) paraTall(w float64, st style, s string) float64 {
	return float64(len(p.wrap(s, st, w, true))) * st.leading()
}

// bullet prints a paragraph hung beside a mark, and returns where the next one
// may begin.
func (p *paper) bullet(x, y, w float64, st style, s string) float64 {
	p.text(x, y+st.capHeight(), st, "–")
	return p.para(x+3.2, y, w-3.2, st, s) + 0.35*st.mm()
}

// tick draws a box to tick, its lower edge on the baseline y, and returns its
// side.
func (p *paper) tick(x, y float64, st style) float64 {
	wide := st.capHeight() * 1.25
	p.box(x, y-wide+0.2*wide/2, wide, wide, thin)
	return wide
}

// choice prints boxes to tick with a word each, and returns the width used.
func (p *paper) choice(x, y float64, st style, words ...string) float64 {
	at := x
	for _, w := range words {
		at += p.tick(at, y, st) + 1
		at += p.text(at, y, st, w) + 3
	}
	return at - x
}
