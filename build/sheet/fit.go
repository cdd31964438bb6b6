package sheet

import (
	"fmt"
	"strings"

	"github.com/rivo/uniseg"

	"github.com/twodip/twodip/tiles"
)

// block is text set to fit a box: its style, its lines, its size.
type block struct {
	style
	lines []string
	wide  float64 // mm, of the widest line
}

// tall is the height from the first line's cap line to the last descender.
func (b block) tall() float64 {
	if len(b.lines) == 0 {
		return 0
	}
	return b.capHeight() + float64(len(b.lines)-1)*b.leading() + descent*b.mm()
}

// fit sets s into a box of w × h mm. It shrinks from st's size to three
// quarters of it, then wraps between words, then shrinks on down to least
// points, and breaks a word only there. A name is never cut: it is an error
// where even that does not fit.
func (p *paper) fit(s string, st style, w, h, least float64) (block, error) {
	if b, ok := p.fitWords(s, st, w, h, least); ok {
		return b, nil
	}
	st = st.at(least)
	if b := p.set(st, p.wrap(s, st, w, true)); b.wide <= w && b.tall() <= h {
		return b, nil
	}
	return block{}, fmt.Errorf("%s does not fit in %.0f × %.0f mm at %g points, the smallest that reads", quoted(s), w, h, least)
}

// fitWords is fit without breaking a word; ok says whether that can be done.
func (p *paper) fitWords(s string, st style, w, h, least float64) (b block, ok bool) {
	const step = 0.25 // pt
	easy := max(0.75*st.pt, least)
	for pt := st.pt; pt >= easy; pt -= step {
		if b = p.set(st.at(pt), []string{s}); b.wide <= w && b.tall() <= h {
			return b, true
		}
	}
	for pt := easy; pt >= least; pt -= step {
		if b = p.set(st.at(pt), p.wrap(s, st.at(pt), w, false)); b.wide <= w && b.tall() <= h {
			return b, true
		}
	}
	return block{}, false
}

// set measures lines at a style.
func (p *paper) set(st style, lines []string) block {
	b := block{style: st, lines: lines}
	for _, l := range lines {
		b.wide = max(b.wide, p.width(st, l))
	}
	return b
}

// wrap breaks s where the Unicode line breaking rules allow it (UAX #14), and
// inside a word only where that is asked for and the word alone is wider than w.
func (p *paper) wrap(s string, st style, w float64, inside bool) []string {
	return p.wrapAfter(0, s, st, w, inside)
}

// wrapAfter is wrap where the first line begins indent mm in.
func (p *paper) wrapAfter(indent float64, s string, st style, w float64, inside bool) []string {
	var lines []string
	room := func() float64 {
		if len(lines) == 0 {
			return w - indent
		}
		return w
	}
	line := ""
	state := -1
	for rest := s; rest != ""; {
		var part string
		part, rest, _, state = uniseg.FirstLineSegmentInString(rest, state)
		if line != "" && p.width(st, strings.TrimRight(line+part, " ")) > room() {
			lines = append(lines, strings.TrimRight(line, " "))
			line = ""
		}
		if line == "" && len(lines) == 0 && indent > 0 && p.width(st, strings.TrimRight(part, " ")) > room() && !inside {
			lines = append(lines, "") // the word goes below what it is run on from
		}
		line += part
		for inside && p.width(st, strings.TrimRight(line, " ")) > room() {
			cut := p.cut(line, st, room())
			if cut == len(line) {
				break
			}
			lines = append(lines, line[:cut])
			line = line[cut:]
		}
	}
	if line = strings.TrimRight(line, " "); line != "" {
		lines = append(lines, line)
	}
	return lines
}

// cut is how many bytes of a too long word fit in w: at least one letter with
// its marks.
func (p *paper) cut(word string, st style, w float64) int {
	n := 0
	state := -1
	for rest := word; rest != ""; {
		var g string
		g, rest, _, state = uniseg.FirstGraphemeClusterInString(rest, state)
		if n > 0 && p.width(st, word[:n+len(g)]) > w {
			return n
		}
		n += len(g)
	}
	return n
}

// block prints a block with the cap line of its first line at y.
func (p *paper) block(x, y float64, b block) {
	y += b.capHeight()
	for _, l := range b.lines {
		p.text(x, y, b.style, l)
		y += b.leading()
	}
}

// blockMiddle prints a block centered on x, its first cap line at y.
func (p *paper) blockMiddle(x, y float64, b block) {
	y += b.capHeight()
	for _, l := range b.lines {
		p.textMiddle(x, y, b.style, l)
		y += b.leading()
	}
}

// setting prints a setting, the last baseline at y, on one line of w mm, smaller where it must be, in two lines
// where even that is too long; where nothing helps, wall.yaml is said to be
// wrong. It returns the width.
func (p *paper) setting(x, y, w float64, st style, s, name string) float64 {
	b, ok := p.onOneLine(s, st, w)
	if !ok {
		var err error
		if b, err = p.fit(s, st, w, 2*st.leading(), leastLabel); err != nil {
			p.fail(tiles.Problem{File: "wall.yaml", What: name + ": " + err.Error(), Do: "shorten it"})
			return 0
		}
	}
	p.block(x, y-b.capHeight()-float64(len(b.lines)-1)*b.leading(), b)
	return b.wide
}

// onOneLine sets s on one line of w mm, shrunk to the least that reads if need be.
func (p *paper) onOneLine(s string, st style, w float64) (block, bool) {
	for ; st.pt >= leastLabel; st.pt -= 0.25 {
		if b := p.set(st, []string{s}); b.wide <= w {
			return b, true
		}
	}
	return block{}, false
}

// quoted is a name in a sentence: a long one is known by its beginning.
func quoted(s string) string {
	const most, shown = 60, 32
	letters := []rune(s)
	if len(letters) <= most {
		return fmt.Sprintf("%q", s)
	}
	return fmt.Sprintf("%q (%d letters)", strings.TrimSpace(string(letters[:shown]))+"…", len(letters))
}
