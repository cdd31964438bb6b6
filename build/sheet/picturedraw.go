package sheet

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf16"
)

// pen is what lines, areas and letters are drawn with.
type pen struct {
	width      float64
	dash       string
	line, area string // colors
	font       *typeface
	size       float64
}

// drawn is a page's contents being drawn as SVG. It knows the operators that
// our sheets use (ISO 32000-1, annex A), and passes over every other.
type drawn struct {
	proof *Proof
	out   *bytes.Buffer
	pen   pen
	kept  []pen // by q
	path  strings.Builder
	x, y  float64 // where text begins
}

// all draws the whole of a page.
func (d *drawn) all(text []byte) {
	var args []string
	for len(text) > 0 {
		var word string
		word, text = nextWord(text)
		switch {
		case word == "":
		case word[0] == '(' || word[0] == '/' || word[0] == '[' || word[0] == ']' || word[0] == '-' || word[0] == '.' || word[0] >= '0' && word[0] <= '9':
			args = append(args, word)
		default:
			d.do(word, args)
			args = args[:0]
		}
	}
}

// nextWord cuts off one number, name, string or operator.
func nextWord(text []byte) (word string, rest []byte) {
	text = bytes.TrimLeft(text, " \n\r\t")
	if len(text) == 0 {
		return "", nil
	}
	switch text[0] {
	case '[', ']':
		return string(text[:1]), text[1:]
	case '(':
		for i := 1; i < len(text); i++ {
			switch text[i] {
			case '\\':
				i++
			case ')':
				return string(text[:i]), text[i+1:]
			}
		}
		return "", nil
	}
	if i := bytes.IndexAny(text, " \n\r\t[]("); i > 0 {
		return string(text[:i]), text[i:]
	}
	return string(text), nil
}

// do draws what one operator says.
func (d *drawn) do(op string, args []string) {
	n := numbersOf(args)
	switch {
	case op == "m" && len(n) == 2:
		fmt.Fprintf(&d.path, "M%g %g", n[0], n[1])
	case op == "l" && len(n) == 2:
		fmt.Fprintf(&d.path, "L%g %g", n[0], n[1])
	case op == "c" && len(n) == 6:
		fmt.Fprintf(&d.path, "C%g %g %g %g %g %g", n[0], n[1], n[2], n[3], n[4], n[5])
	case op == "re" && len(n) == 4:
		fmt.Fprintf(&d.path, "M%g %gh%gv%gh%gz", n[0], n[1], n[2], n[3], -n[2])
	case op == "h":
		d.path.WriteString("z")
	case op == "S" || op == "s":
		d.end("none", d.pen.line)
	case op == "f" || op == "f*" || op == "F":
		d.end(d.pen.area, "none")
	case op == "B" || op == "b":
		d.end(d.pen.area, d.pen.line)
	case op == "n" || op == "W":
		d.path.Reset()
	case op == "q":
		d.kept = append(d.kept, d.pen)
		d.out.WriteString("<g>")
	case op == "Q" && len(d.kept) > 0:
		d.pen, d.kept = d.kept[len(d.kept)-1], d.kept[:len(d.kept)-1]
		d.out.WriteString("</g>")
	case op == "cm" && len(n) == 6 && len(d.kept) > 0:
		// It holds until Q: the group closes both.
		fmt.Fprintf(d.out, `</g><g transform="matrix(%g %g %g %g %g %g)">`, n[0], n[1], n[2], n[3], n[4], n[5])
	default:
		d.set(op, args, n)
	}
}

// set changes the pen, or writes.
func (d *drawn) set(op string, args []string, n []float64) {
	switch {
	case op == "w" && len(n) == 1:
		d.pen.width = n[0]
	case op == "d":
		d.pen.dash = strings.Trim(strings.Join(args[:max(0, len(args)-1)], " "), "[] ")
	case (op == "g" || op == "rg") && len(n) > 0:
		d.pen.area = colorOf(n)
	case (op == "G" || op == "RG") && len(n) > 0:
		d.pen.line = colorOf(n)
	case op == "Tf" && len(args) == 2:
		d.pen.font = d.proof.fonts[strings.TrimPrefix(args[0], "/")]
		d.pen.size, _ = strconv.ParseFloat(args[1], 64)
	case op == "Td" && len(n) == 2:
		d.x, d.y = n[0], n[1]
	case op == "Tj" && len(args) == 1:
		d.write(unicodeOf(args[0]))
	}
}

func numbersOf(args []string) []float64 {
	out := make([]float64, 0, len(args))
	for _, a := range args {
		x, err := strconv.ParseFloat(a, 64)
		if err != nil {
			return nil
		}
		out = append(out, x)
	}
	return out
}

// colorOf is a grey, or red, green and blue, of 0 to 1.
func colorOf(n []float64) string {
	if len(n) < 3 {
		n = []float64{n[0], n[0], n[0]}
	}
	return fmt.Sprintf("rgb(%.0f,%.0f,%.0f)", 255*n[0], 255*n[1], 255*n[2])
}

// end draws the path and begins another.
func (d *drawn) end(fill, stroke string) {
	fmt.Fprintf(d.out, `<path d="%s" fill="%s"`, d.path.String(), fill)
	if stroke != "none" {
		fmt.Fprintf(d.out, ` stroke="%s" stroke-width="%g"`, stroke, d.pen.width)
		if d.pen.dash != "" {
			fmt.Fprintf(d.out, ` stroke-dasharray="%s"`, d.pen.dash)
		}
	}
	d.out.WriteString("/>")
	d.path.Reset()
}

// unicodeOf reads a string as gofpdf writes it: UTF-16, most significant byte
// first, some bytes after a backslash.
func unicodeOf(s string) string {
	var units []uint16
	var bytes []byte
	for i := 1; i < len(s); i++ {
		c := s[i]
		if c == '\\' && i+1 < len(s) {
			i++
			if c = s[i]; c == 'r' {
				c = '\r'
			}
		}
		bytes = append(bytes, c)
	}
	for i := 0; i+1 < len(bytes); i += 2 {
		units = append(units, uint16(bytes[i])<<8|uint16(bytes[i+1]))
	}
	return string(utf16.Decode(units))
}

// write sets text as wide as our font sets it.
func (d *drawn) write(s string) {
	if strings.TrimSpace(s) == "" || d.pen.size == 0 {
		return
	}
	fmt.Fprintf(d.out, `<text transform="matrix(1 0 0 -1 %g %g)" font-size="%g" fill="%s"`, d.x, d.y, d.pen.size, d.pen.area)
	if f := d.pen.font; f != nil {
		wide := 0.0
		for _, r := range s {
			wide += max(0, f.advance(r))
		}
		fmt.Fprintf(d.out, ` textLength="%.2f" lengthAdjust="spacingAndGlyphs"`, wide*d.pen.size)
		if strings.Contains(f.name, "bold") {
			d.out.WriteString(` font-weight="700"`)
		}
	}
	d.out.WriteString(` xml:space="preserve">`)
	_ = xml.EscapeText(d.out, []byte(s)) // a buffer takes everything
	d.out.WriteString("</text>")
}
