package sheet

import (
	"fmt"
	"strconv"
	"strings"
)

// Line widths, mm: two, and a hair for what only guides the eye. None is so
// thin that a copier drops it.
const (
	hair  = 0.12
	thin  = 0.2
	thick = 0.5
)

func (p *paper) rule(width float64) { p.pdf.SetLineWidth(width) }

func (p *paper) line(x1, y1, x2, y2, width float64) {
	p.rule(width)
	p.pdf.Line(x1, y1, x2, y2)
}

func (p *paper) box(x, y, w, h, width float64) {
	p.rule(width)
	p.pdf.Rect(x, y, w, h, "D")
}

// dashed draws a line of dashes.
func (p *paper) dashed(x1, y1, x2, y2, width float64, dash ...float64) {
	p.pdf.SetDashPattern(dash, 0)
	p.line(x1, y1, x2, y2, width)
	p.pdf.SetDashPattern(nil, 0)
}

// path is many strokes or areas written as one raw PDF path, which takes a
// tenth of the bytes of a call each. Its coordinates are the page's, mm.
type path struct {
	b strings.Builder
	h float64
}

func (p *paper) path() *path { return &path{h: p.h} }

func (d *path) move(x, y float64) { d.point(x, y, 'm') }
func (d *path) to(x, y float64)   { d.point(x, y, 'l') }

func (d *path) point(x, y float64, op byte) {
	d.b.WriteString(points(x))
	d.b.WriteByte(' ')
	d.b.WriteString(points(d.h - y))
	d.b.WriteByte(' ')
	d.b.WriteByte(op)
	d.b.WriteByte(' ')
}

// rect adds a rectangle.
func (d *path) rect(x, y, w, h float64) {
	fmt.Fprintf(&d.b, "%s %s %s %s re ", points(x), points(d.h-y-h), points(w), points(h))
}

// stroke draws the path as lines of a width, mm.
func (p *paper) stroke(d *path, width float64) {
	p.rule(width)
	p.pdf.RawWriteStr(d.b.String() + "S\n")
}

// fill draws the path as areas.
func (p *paper) fill(d *path) { p.pdf.RawWriteStr(d.b.String() + "f\n") }

// points writes millimetres as PDF units, to a thousandth of a point.
func points(mm float64) string {
	s := strconv.FormatFloat(mm/mmPerPoint, 'f', 3, 64)
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}
