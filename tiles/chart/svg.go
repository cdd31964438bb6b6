package chart

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"
)

// SVG is the drawing for a page: it takes the color of the words around it, and
// the width it is given.
func (d Drawing) SVG() string {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %s %s" role="img" aria-label="%s" fill="currentColor" stroke="none" font-family="inherit">`,
		mm(d.Width), mm(d.Height), escape(d.Title+". "+d.Words))
	for _, m := range d.Marks {
		m.svg(&b)
	}
	b.WriteString("</svg>")
	return b.String()
}

func (m Mark) svg(b *strings.Builder) {
	switch m.Shape {
	case Line:
		fmt.Fprintf(b, `<path d="M%s %sL%s %s" stroke="currentColor" stroke-width="%s"`, mm(m.X), mm(m.Y), mm(m.X2), mm(m.Y2), mm(m.Size))
		if len(m.Dash) > 0 {
			var dash []string
			for _, length := range m.Dash {
				dash = append(dash, mm(length))
			}
			fmt.Fprintf(b, ` stroke-dasharray="%s"`, strings.Join(dash, " "))
		}
		if m.Faint {
			b.WriteString(` stroke-opacity=".4"`)
		}
		b.WriteString("/>")
	case Dot:
		fmt.Fprintf(b, `<circle cx="%s" cy="%s" r="%s"/>`, mm(m.X), mm(m.Y), mm(m.Size))
	case Ring:
		fmt.Fprintf(b, `<circle cx="%s" cy="%s" r="%s" fill="none" stroke="currentColor" stroke-width="%s"/>`, mm(m.X), mm(m.Y), mm(m.Size), mm(thick))
	case Words:
		weight := ""
		if m.Bold {
			weight = ` font-weight="bold"`
		}
		fmt.Fprintf(b, `<text x="%s" y="%s" font-size="%s" text-anchor="%s"%s>%s</text>`, mm(m.X), mm(m.Y), mm(m.Size), m.Anchor, weight, escape(m.Text))
	}
}

// mm is a length to a hundredth of a millimetre.
func mm(x float64) string {
	return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(x, 'f', 2, 64), "0"), ".")
}

func escape(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // a buffer takes everything
	return b.String()
}
