package sheet

import (
	"strings"

	"codeberg.org/go-fonts/dejavu/dejavusansbold"
	"codeberg.org/go-fonts/dejavu/dejavusanscondensed"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// fonts is what a document's text is set in. The main family draws all that it
// can; the wide one has more scripts, and figures whose zero has no slash, for
// numbers that never mix with letters.
type fonts struct {
	regular, bold         *typeface
	wide, wideBold        *typeface
	own                   *typeface // nil = the wall gives no font
	regulars, bolds, figs []*typeface
}

func readFonts(own []byte) (*fonts, error) {
	var f fonts
	for _, face := range []struct {
		to   **typeface
		name string
		ttf  []byte
	}{
		{&f.regular, "text", goregular.TTF},
		{&f.bold, "bold", gobold.TTF},
		{&f.wide, "wide", dejavusanscondensed.TTF},
		{&f.wideBold, "widebold", dejavusansbold.TTF},
		{&f.own, "own", own},
	} {
		if face.ttf == nil {
			continue
		}
		read, err := readTypeface(face.name, face.ttf)
		if err != nil {
			return nil, err
		}
		*face.to = read
	}
	f.regulars = []*typeface{f.regular, f.wide}
	f.bolds = []*typeface{f.bold, f.wideBold}
	f.figs = []*typeface{f.wideBold}
	if f.own != nil {
		f.regulars, f.bolds = append(f.regulars, f.own), append(f.bolds, f.own)
	}
	return &f, nil
}

// missing lists the letters of s that no font has, each once.
func (f *fonts) missing(s string) []rune {
	var missing []rune
	for _, r := range s {
		if has(f.regulars, r) && has(f.bolds, r) || strings.ContainsRune(string(missing), r) {
			continue
		}
		missing = append(missing, r)
	}
	return missing
}

func has(faces []*typeface, r rune) bool {
	for _, f := range faces {
		if f.has(r) {
			return true
		}
	}
	return false
}

// choose picks the font that shows most of s: the earlier one where they are
// equal. A string is set in one font, so that a name never changes face.
func (f *fonts) choose(s string, st style) *typeface {
	faces := f.regulars
	switch {
	case st.figures:
		faces = f.figs
	case st.bold:
		faces = f.bolds
	}
	best, lacks := faces[0], faces[0].lacks(s)
	for _, face := range faces[1:] {
		if lacks == 0 {
			break
		}
		if n := face.lacks(s); n < lacks {
			best, lacks = face, n
		}
	}
	return best
}
