package sheet

import (
	"fmt"
	"strings"
	"unicode/utf16"

	"golang.org/x/text/unicode/bidi"
)

// A PDF holds letters at places, and who copies, searches or reads them aloud
// has to guess their order. Two guesses of poppler (pdftotext, and the viewers
// made of it) go wrong with names from the right: it takes an arrow between two
// of them for a part of both and turns all three around, and it reads a whole
// page from the right where most of its letters are such. Both are told better
// by replacement text (ISO 32000-1, 14.9.4) that holds the mark which orders
// the words on paper too.

// put prints a stretch of a line. What stands between words from the right says
// in its replacement text that it is read from the left.
func (p *paper) put(x, y float64, part piece) {
	if part.apart {
		p.readAs(string(leftToRight)+part.text+string(leftToRight), func() { p.pdf.Text(x, y, part.text) })
	} else {
		p.pdf.Text(x, y, part.text)
	}
	p.fromRight += fromRight(part.text)
}

// readAs has what is drawn be read as s.
func (p *paper) readAs(s string, draw func()) {
	hex := "FEFF" // UTF-16, big end first (ISO 32000-1, 7.9.2.2)
	for _, unit := range utf16.Encode([]rune(s)) {
		hex += fmt.Sprintf("%04X", unit)
	}
	p.pdf.RawWriteStr("/Span <</ActualText <" + hex + ">>> BDC\n")
	draw()
	p.pdf.RawWriteStr("EMC\n")
}

// fromRight is how many more letters of s read from the right than from the left.
func fromRight(s string) int {
	n := 0
	for _, r := range s {
		switch c, _ := bidi.LookupRune(r); c.Class() {
		case bidi.R, bidi.AL:
			n++
		case bidi.L:
			n--
		}
	}
	return n
}

// endPage has a page that holds more letters from the right be read from the
// left all the same: its sentences are English. The marks that weigh against
// them are the reading of a space at the page's foot.
func (p *paper) endPage() {
	if p.fromRight > 0 {
		const foot = 3 // mm
		p.use(p.fonts.regular)
		p.pdf.SetFont(p.fonts.regular.name, "", 1)
		p.readAs(strings.Repeat(string(leftToRight), p.fromRight), func() { p.pdf.Text(foot, p.h-foot, " ") })
	}
	p.fromRight = 0
}
