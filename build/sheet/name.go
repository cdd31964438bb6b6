package sheet

import (
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"github.com/twodip/twodip/tiles"
)

// standIn is printed where no font has a letter; both built-in weights have it.
const standIn = '□'

// clean makes any string fit to print: valid UTF-8, composed (NFC), on one
// line, without control or formatting characters but the mark that sets a word
// from the right apart (tiles.Apart).
func clean(s string) string {
	s = norm.NFC.String(strings.ToValidUTF8(s, "\uFFFD"))
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case r == leftToRight:
			return r
		case unicode.IsControl(r), unicode.Is(unicode.Cf, r), unicode.Is(unicode.Variation_Selector, r):
			return -1
		}
		return r
	}, s)
	return strings.Join(strings.Fields(s), " ")
}

// Lack is a glaze whose name holds letters no font at hand can print.
type Lack struct {
	Glaze   tiles.Glaze
	Letters []rune
}

// String says the glaze and the letters.
func (l Lack) String() string {
	each := make([]string, len(l.Letters))
	for i, r := range l.Letters {
		each[i] = fmt.Sprintf("%q (%U)", string(r), r)
	}
	return fmt.Sprintf("glaze %s, %q: no font at hand has %s", l.Glaze.Code, clean(l.Glaze.Name), strings.Join(each, ", "))
}

// Lacks looks every letter of every glaze's name up in the fonts the sheets
// will use: the built-in one and, where it is not nil, the wall's own.
func Lacks(glazes []tiles.Glaze, own []byte) ([]Lack, error) {
	fonts, err := readFonts(own)
	if err != nil {
		return nil, err
	}
	var lacks []Lack
	for _, g := range glazes {
		if missing := fonts.missing(clean(g.Code + " " + g.Name)); len(missing) > 0 {
			lacks = append(lacks, Lack{g, missing})
		}
	}
	return lacks, nil
}

// shown is s as the font can print it: Arabic letters joined, and letters it
// lacks replaced.
func (f *typeface) shown(s string) string {
	s = joinArabic(s, f.has)
	if f.lacks(s) == 0 {
		return s
	}
	return strings.Map(func(r rune) rune {
		switch {
		case f.has(r):
			return r
		case unicode.IsMark(r):
			return -1
		case f.has(standIn):
			return standIn
		}
		return '?'
	}, s)
}

// Mend says what can be done about the letters.
func (l Lack) Mend() string {
	for _, r := range l.Letters {
		if r <= 0xFFFF {
			return "give a font that has it (labels: font in wall.yaml), or write the name in other letters"
		}
	}
	return "write the name without it; letters above U+FFFF cannot be printed in any font"
}
