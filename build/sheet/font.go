package sheet

import (
	"bytes"
	"errors"
	"fmt"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// The built-in family's heights as shares of the type size, measured on its
// glyphs: a capital H, a figure 0, the tail of a g.
const (
	capHeight    = 0.7227
	figureHeight = 0.7407
	descent      = 0.2051
)

const mmPerPoint = 25.4 / 72

// typeface is one weight of one font: its file and the widths of its letters.
type typeface struct {
	name  string // as gofpdf knows it
	ttf   []byte
	font  *sfnt.Font
	buf   sfnt.Buffer
	width map[rune]float64 // in ems; negative = the font lacks the letter
}

func readTypeface(name string, ttf []byte) (*typeface, error) {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		return nil, fmt.Errorf("reading the font: %w", err)
	}
	return &typeface{name: name, ttf: ttf, font: f, width: map[rune]float64{}}, nil
}

// has says whether the font can show the letter in a PDF. Letters above U+FFFF
// never can: gofpdf panics on them.
func (f *typeface) has(r rune) bool { return f.advance(r) >= 0 }

// advance is the width of a letter in ems, -1 where the font lacks it.
func (f *typeface) advance(r rune) float64 {
	if r == leftToRight {
		return 0
	}
	if w, ok := f.width[r]; ok {
		return w
	}
	w := f.lookUp(r)
	f.width[r] = w
	return w
}

// ems is the width of letters in a row.
func (f *typeface) ems(s string) float64 {
	wide := 0.0
	for _, r := range s {
		wide += f.advance(r)
	}
	return wide
}

func (f *typeface) lookUp(r rune) float64 {
	if r > 0xFFFF {
		return -1
	}
	glyph, err := f.font.GlyphIndex(&f.buf, r)
	if err != nil || glyph == 0 {
		return -1
	}
	const em = 1000
	w, err := f.font.GlyphAdvance(&f.buf, glyph, fixed.I(em), font.HintingNone)
	if err != nil {
		return -1
	}
	return float64(w) / 64 / em
}

// lacks counts the letters of s that the font cannot show.
func (f *typeface) lacks(s string) int {
	n := 0
	for _, r := range s {
		if !f.has(r) {
			n++
		}
	}
	return n
}

// CheckFont says in one clause why a file cannot be used as labels.font, or nil.
func CheckFont(ttf []byte) error {
	switch {
	case bytes.HasPrefix(ttf, []byte("OTTO")):
		return errors.New("it holds PostScript outlines (an .otf file); give a TrueType font (.ttf)")
	case bytes.HasPrefix(ttf, []byte("ttcf")):
		return errors.New("it is a collection of fonts (.ttc); give a single TrueType font (.ttf)")
	case bytes.HasPrefix(ttf, []byte("wOF")):
		return errors.New("it is a web font; give a TrueType font (.ttf)")
	case !bytes.HasPrefix(ttf, []byte{0, 1, 0, 0}) && !bytes.HasPrefix(ttf, []byte("true")):
		return errors.New("it is not a TrueType font; give a .ttf file")
	}
	face, err := readTypeface("own", ttf)
	if err != nil {
		return fmt.Errorf("it is damaged or cut short (%w); give another copy", err)
	}
	return tryFont(face)
}
