package sheet

import (
	"fmt"
	"io"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// Log writes the glazing log that students fill in: the wall's codes along the
// top, the studio's rules, then a row a piece with room for a sketch.
func Log(w io.Writer, job Job) (pages int, err error) {
	s, err := newPinned(job, "Glazing log", "Write down every piece before it goes on the kiln shelf, the good ones too.", false)
	if err != nil {
		return 0, err
	}
	s.add(func(body area) {
		y := s.codeList(body)
		y = s.rules(area{body.x, y + 2.5, body.w, 0})
		y += 1.5
		rows := int((body.y + body.h - y) / 32)
		each := (body.y + body.h - y) / float64(max(rows, 1))
		for i := range rows {
			s.entry(area{body.x, y + float64(i)*each, body.w, each})
		}
	})
	return s.bind(w)
}

// inUse lists the glazes that can be dipped today.
func inUse(w tiles.Wall) []tiles.Glaze {
	var list []tiles.Glaze
	for _, g := range w.Glazes {
		if !g.Retired {
			list = append(list, g)
		}
	}
	return list
}

// codeRow is the height of a line in the list of codes.
const codeRow = 3.9

// codeList prints every code with its name in columns, as many as the longest
// name allows, and returns where the next part may begin. Names that not even
// two columns hold are left out, and that is said.
func (p *paper) codeList(a area) float64 {
	list := inUse(p.job.Wall)
	lead := 0.0
	for _, g := range list {
		lead = max(lead, p.width(small.heavy(), clean(g.Code)))
	}
	columns := 5
	for columns > 2 && !p.namesFit(list, a.w/float64(columns)-lead-3.5) {
		columns--
	}
	rows := (len(list) + columns - 1) / columns
	wide := a.w / float64(columns)
	for i, g := range list {
		x, y := a.x+float64(i/rows)*wide, a.y+float64(i%rows)*codeRow+small.capHeight()
		p.text(x, y, small.heavy(), clean(g.Code))
		if b, ok := p.onOneLine(clean(g.Name), small, wide-lead-3.5); ok {
			p.text(x+lead+1.5, y, b.style, b.lines[0])
		} else {
			p.codeAlone(g.Code, "the glazing log")
		}
	}
	return a.y + float64(rows)*codeRow
}

func (p *paper) namesFit(list []tiles.Glaze, w float64) bool {
	for _, g := range list {
		if _, ok := p.onOneLine(clean(g.Name), small, w); !ok {
			return false
		}
	}
	return true
}

// rules prints the studio's rules in two columns, and returns where the next
// part may begin.
func (p *paper) rules(a area) float64 {
	said := studioRules(p.job.Wall)
	half := (len(said) + 1) / 2
	wide := a.w/2 - 3
	p.line(a.x, a.y, a.x+a.w, a.y, thin)
	end := a.y
	for i, column := range [][]string{said[:half], said[half:]} {
		y := a.y + 2
		for _, rule := range column {
			y = p.bullet(a.x+float64(i)*(a.w/2+3), y, wide, small, rule)
		}
		end = max(end, y)
	}
	p.line(a.x, end+0.5, a.x+a.w, end+0.5, thin)
	return end + 0.5
}

// studioRules says the studio's rules from its settings: how to dip, then the
// pairs never made.
func studioRules(w tiles.Wall) []string {
	d := w.Dip
	said := []string{"Bisque-fired clay only. Two coats at most: 1st on the clay, 2nd over it, and stop there."}
	if d.Coats == 1 {
		said[0] = "Bisque-fired clay only. One coat: two are not fired here."
	}
	how := "Stir to the bottom before every dip."
	if d.Seconds > 0 {
		how += fmt.Sprintf(" Dip for %s seconds; a 2nd dip shorter than the 1st.", inMM(d.Seconds))
	}
	said = append(said, how, "One bucket open at a time. A 2nd coat comes "+secondFromWords(d)+".")
	if d.Dry > 0 {
		said = append(said, fmt.Sprintf("Between the coats wait %s minutes, until nothing shines any more.", inMM(d.Dry)))
	}
	said = append(said, fmt.Sprintf("Wipe the foot and %s up the side; %s where a glaze runs or the pair is new to you.", w.Units.Length(6), w.Units.Length(bareUnderRuns)))
	said = append(said, "Two coats make a new glaze: not tested for food, whatever each is alone.")
	for _, t := range []struct {
		trait tiles.Trait
		words string
	}{
		{tiles.Soluble, "Gloves, it holds soluble salts: "},
		{tiles.NotFood, "Never where food or drink touches: "},
		{tiles.NeverFirst, "Never as 1st under another: "},
		{tiles.NeverSecond, "Never as 2nd over another: "},
	} {
		if codes := codesWith(w, t.trait); codes != "" {
			said = append(said, t.words+codes+".")
		}
	}
	for _, r := range w.Rules {
		if r.Do == "skip" {
			said = append(said, "Never "+ruleInWords(w, r)+".")
		}
	}
	return said
}

// secondFromWords is what a second coat is put on from, for those who glaze a
// piece of their own.
func secondFromWords(d tiles.Dip) string {
	switch d.SecondFrom {
	case tiles.SecondBucket:
		return "from the bucket, which is sieved after"
	case tiles.SecondBrush:
		return "from a brush"
	}
	return "from a jar or a cup, never from the bucket itself, and what is left never goes back"
}

// codesWith lists the glazes in use that have a trait.
func codesWith(w tiles.Wall, t tiles.Trait) string {
	var codes []string
	for _, g := range inUse(w) {
		if g.Has(t) {
			codes = append(codes, clean(g.Code))
		}
	}
	return strings.Join(codes, ", ")
}

// ruleInWords says whom a rule speaks of, and why.
func ruleInWords(w tiles.Wall, r tiles.Rule) string {
	name := func(s string) string {
		if g, ok := tiles.FindGlaze(w.Glazes, s); ok {
			return g.Code
		}
		return "any " + s + " glaze"
	}
	var who string
	switch {
	case r.Either != "":
		who = name(r.Either) + " with another"
	case r.First != "" && r.Second != "":
		who = "1st " + name(r.First) + " → 2nd " + name(r.Second)
	case r.First != "":
		who = name(r.First) + " as 1st"
	default:
		who = name(r.Second) + " as 2nd"
	}
	if r.Reason != "" {
		who += ": " + strings.TrimRight(clean(r.Reason), ".")
	}
	return clean(who)
}

// ways lists how a studio lets people glaze.
func ways(d tiles.Dip) []string {
	if d.Brush {
		return []string{"dip", "pour", "brush"}
	}
	return []string{"dip", "pour"}
}

// entry prints the row of one piece: room for a sketch at the left, then what
// is written down, in the order it happens.
func (p *paper) entry(a area) {
	p.box(a.x, a.y, a.w, a.h, thin)
	sketch := min(44, a.w*0.25)
	p.line(a.x+sketch, a.y, a.x+sketch, a.y+a.h, thin)
	p.text(a.x+1.2, a.y+3.2, small.at(7), "sketch: mark where the 2nd goes")
	x, w := a.x+sketch+3, a.w-sketch-5
	step := a.h / 4.25
	y := a.y + step*0.82
	col := func(share float64) float64 { return w * share }
	p.blank(x, y, col(0.19), "piece")
	p.blank(x+col(0.21), y, col(0.17), "maker")
	p.blank(x+col(0.40), y, col(0.19), "date")
	p.blank(x+col(0.61), y, col(0.18), "clay")
	p.blank(x+col(0.81), y, col(0.19), "bisque")
	y += step
	p.codeBox(x, y, "1st")
	p.text(x+25, y, head, "→")
	p.codeBox(x+32, y, "2nd")
	p.text(x+62, y, small, "how")
	p.choice(x+70, y, small, ways(p.job.Wall.Dip)...)
	y += step
	p.blank(x, y, col(0.46), "2nd goes where")
	p.text(x+col(0.49), y, small, "foot")
	p.choice(x+col(0.49)+8, y, small, "wiped")
	p.blank(x+col(0.69), y, col(0.14), "load")
	p.blank(x+col(0.85), y, col(0.15), "shelf")
	y += step
	p.text(x, y, small.heavy(), "after firing")
	at := x + p.width(small.heavy(), "after firing") + 3
	at += p.choice(at, y, small, "good", "fault")
	const bad = 33.0
	p.blank(at, y, x+w-at-bad-2, "which, where")
	wide := p.text(x+w-bad, y, small, "how bad")
	p.choice(x+w-bad+wide+1.5, y, small, "1", "2", "3")
}

// codeBox prints "1st" or "2nd" and a box for a code.
func (p *paper) codeBox(x, y float64, which string) {
	wide := p.text(x, y, text.heavy(), which)
	p.box(x+wide+1.2, y-4.3, 15, 5.8, 0.3)
}
