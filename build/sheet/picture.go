package sheet

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
)

// Proof is a finished PDF of ours, to be looked at before it is printed.
type Proof struct {
	Width, Height float64  // of its pages, points
	pages         []extent // the contents of each page
	pdf           []byte
	fonts         map[string]*typeface // by the name that the contents call them
}

// extent is a part of a file's bytes.
type extent struct{ from, to int }

var (
	mediaBox = regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)
	contents = regexp.MustCompile(`/Contents \d+ 0 R>>\nendobj\n\d+ 0 obj\n<</Filter /FlateDecode /Length (\d+)>>\nstream\n`)
	fontName = regexp.MustCompile(`/(F[0-9a-f]{20,}) (\d+) 0 R`)
	fontBase = regexp.MustCompile(`(\d+) 0 obj\n<</Type /Font\n/Subtype /Type0\n/BaseFont /utf8(\w+)`)
)

// ReadProof finds the pages of a PDF that Sheet.Draw wrote.
func ReadProof(pdf []byte) (*Proof, error) {
	box := mediaBox.FindSubmatch(pdf)
	if box == nil {
		return nil, errors.New("the PDF has no page size")
	}
	p := &Proof{pdf: pdf, fonts: map[string]*typeface{}}
	p.Width, _ = strconv.ParseFloat(string(box[1]), 64)
	p.Height, _ = strconv.ParseFloat(string(box[2]), 64)
	for at := 0; ; {
		m := contents.FindSubmatchIndex(pdf[at:])
		if m == nil {
			break
		}
		length, err := strconv.Atoi(string(pdf[at+m[2] : at+m[3]]))
		if from := at + m[1]; err != nil || length > len(pdf)-from {
			return nil, errors.New("the PDF ends too early")
		}
		p.pages = append(p.pages, extent{at + m[1], at + m[1] + length})
		at += m[1] + length
	}
	return p, p.readFonts()
}

// readFonts finds which of our fonts a page means.
func (p *Proof) readFonts() error {
	ours, err := readFonts(nil)
	if err != nil {
		return err
	}
	byName := map[string]*typeface{}
	for _, f := range []*typeface{ours.regular, ours.bold, ours.wide, ours.wideBold} {
		byName[f.name] = f
	}
	byObject := map[string]*typeface{}
	for _, m := range fontBase.FindAllSubmatch(p.pdf, -1) {
		byObject[string(m[1])] = byName[string(m[2])]
	}
	for _, m := range fontName.FindAllSubmatch(p.pdf, -1) {
		p.fonts[string(m[1])] = byObject[string(m[2])]
	}
	return nil
}

// mostPage bounds the contents of a page, in bytes.
const mostPage = 32 << 20

// Picture draws a page, 1 and up, as SVG, lines and letters where the PDF has
// them. The letters are those of the reader's system, as wide as ours.
func (p *Proof) Picture(w io.Writer, page int) error {
	if page < 1 || page > len(p.pages) {
		return fmt.Errorf("there is no page %d", page)
	}
	at := p.pages[page-1]
	packed, err := zlib.NewReader(bytes.NewReader(p.pdf[at.from:at.to]))
	if err != nil {
		return err
	}
	text, err := io.ReadAll(io.LimitReader(packed, mostPage))
	if err != nil {
		return err
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %g %g" font-family="Go, 'Liberation Sans', Arial, sans-serif"><rect width="100%%" height="100%%" fill="#fff"/><g transform="matrix(1 0 0 -1 0 %g)">`,
		p.Width, p.Height, p.Height)
	d := &drawn{proof: p, out: &out, pen: pen{width: 1, line: "#000", area: "#000"}}
	d.all(text)
	for range d.kept {
		out.WriteString("</g>")
	}
	out.WriteString("</g></svg>\n")
	_, err = out.WriteTo(w)
	return err
}
