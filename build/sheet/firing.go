package sheet

import (
	"fmt"
	"io"
)

// Firing writes the record of one firing: what to check before, the schedule,
// the cones shelf by shelf, the readings, and what came out.
func Firing(w io.Writer, job Job) (pages int, err error) {
	s, err := newPinned(job, "Firing record", "One sheet a firing. The cones decide, not the controller.", false)
	if err != nil {
		return 0, err
	}
	s.written = true
	s.add(s.firing)
	return s.bind(w)
}

func (s *pinned) firing(body area) {
	x, w := body.x, body.w
	y := body.y + 4
	s.blank(x, y, w*0.22, "load")
	s.text(x+w*0.26, y, small, "kiln")
	s.setting(x+w*0.26+8, y, w*0.27-8, text.heavy(), clean(s.job.Wall.Kiln.Name), "kiln: name")
	s.text(x+w*0.55, y, small, "firing")
	wide := s.choice(x+w*0.55+11, y, small, "bisque", "glaze, cone "+s.cone(), "other")
	if at := x + w*0.55 + 11 + wide; x+w-at > 20 {
		s.blank(at, y, x+w-at, "tiles: load")
	}
	y += 6
	y = s.checks(area{x, y, w, 0})
	left := area{x, y + 3, w*0.5 - 4, body.y + body.h - y - 3}
	right := area{x + w*0.5 + 4, y + 3, w*0.5 - 4, left.h}
	s.schedule(left)
	s.cones(right)
}

// cone is the wall's cone; a longer text than a cone is left to be written.
func (p *paper) cone() string {
	if c := clean(p.job.Wall.Cone); len([]rune(c)) <= 8 {
		return c
	}
	return "____"
}

// checks is ticked before the kiln is switched on. Local codes and the kiln's
// manual come first: the figures are common practice, found written.
func (p *paper) checks(a area) float64 {
	p.line(a.x, a.y, a.x+a.w, a.y, thin)
	y := a.y + 6
	p.text(a.x, y, head, "Before switching on")
	p.textRight(a.x+a.w, y, small, "The kiln’s manual and local codes come before this list.")
	u := p.job.Wall.Units
	said := []string{
		"Room fan and kiln vent run, to the outdoors",
		"Nothing that burns within the manual’s distance",
		"Kiln wash on the tops of the shelves only",
		fmt.Sprintf("Pieces %s apart at least, feet wiped", u.Length(max(6, p.job.Wall.Kiln.Gap))),
		"Runny pairs low, on waste slabs",
		"Three posts a shelf, each over the one below",
		fmt.Sprintf("%s clear of the thermocouple, %s under the lid", u.Length(25), u.Length(12)),
		"Witness cones seen through the spyhole",
		"Somebody is in the building until it is off",
		"Every tile’s shelf is written on the shelf map",
	}
	y += 5.5
	for i, s := range said {
		at := a.x + float64(i%2)*a.w/2
		p.tick(at, y+float64(i/2)*5.2, text)
		p.text(at+5, y+float64(i/2)*5.2, small, s)
	}
	end := y + float64((len(said)-1)/2)*5.2 + 3
	p.line(a.x, end, a.x+a.w, end, thin)
	return end
}

// schedule is a table for what was set and one for what was read.
func (p *paper) schedule(a area) {
	p.text(a.x, a.y+4, head, "Schedule")
	next := p.table(area{a.x, a.y + 7, a.w, 0}, 7.2, []string{"", "rate, ° an hour", "to, °", "hold, min"}, []float64{0.12, 0.36, 0.26, 0.26}, numbered(7))
	p.text(a.x, next+3.5, small.at(7), "°C or °F, write which. A rate times 1.8 is °F an hour: no 32 is added.")
	y := next + 9
	p.text(a.x, y+2, head, "Readings")
	rows := int((a.y + a.h - y - 11) / 7.2)
	p.table(area{a.x, y + 5, a.w, 0}, 7.2, []string{"time", "temperature", "seen, changed, by whom"}, []float64{0.2, 0.26, 0.54}, make([]string, rows))
}

// cones is a row a shelf, then what came out.
func (p *paper) cones(a area) {
	p.text(a.x, a.y+4, head, "Cones, shelf by shelf")
	heads := []string{"shelf", "guide", "firing", "guard"}
	set, known := coneSet(p.job.Wall.Cone)
	if known {
		for i := range set {
			heads[i+1] += " " + set[i].cone
		}
	}
	var names []string
	for _, s := range p.job.Wall.Kiln.Shelves {
		names = append(names, clean(s.Name))
	}
	if len(names) == 0 {
		names = []string{"top", "middle", "bottom"}
	}
	if len(names) > 7 {
		names = names[:7]
	}
	next := p.table(area{a.x, a.y + 7, a.w, 0}, 7.2, heads, []float64{0.34, 0.22, 0.22, 0.22}, names)
	p.text(a.x, next+3.5, small.at(7), "Write where each tip points, as on a clock: 12 up, 3 level, 6 down.")
	y := next + 5
	if known {
		y = p.para(a.x, next+5.5, a.w, small.at(7), coneWords(set)) + 1.5
	}
	y += p.caution(area{a.x, y, a.w, 0}, "Look in only through welder’s-type eyewear, and stand back from the spyhole.") + 5
	y = p.para(a.x, y, a.w, head, "After")
	for _, l := range []string{"off at", "peak", "opened at (100 °C, 212 °F or less)", "kiln’s clock or meter"} {
		p.blank(a.x, y+5, a.w, l)
		y += 7
	}
	p.blank(a.x, y+5, a.w, "control tile, against its fellow from the last load")
	p.text(a.x, y+11.5, small.heavy(), "What came out, what changes next time")
	for at := y + 19; at < a.y+a.h+0.1; at += 7.2 {
		p.line(a.x, at, a.x+a.w, at, thin)
	}
}

// coneWords says where the three cones end, and by which table.
func coneWords(set [3]coneEnd) string {
	s := "Large cones, last 100 °C at 60 °C an hour: "
	for i, c := range set {
		if i > 0 {
			s += ", "
		}
		s += fmt.Sprintf("cone %s %d °C (%d °F)", c.cone, c.slow, fahrenheit(c.slow))
	}
	return s + ". Tables differ by edition, cone and rate: trust the cone."
}

// numbered is the first column of a table of n rows.
func numbered(n int) []string {
	rows := make([]string, n)
	for i := range rows {
		rows[i] = fmt.Sprint(i + 1)
	}
	return rows
}

// table draws a ruled table with heads and, in its first column, words; the
// rest is for a pen. Shares are of the width. It returns its lower edge.
func (p *paper) table(a area, row float64, heads []string, shares []float64, first []string) float64 {
	const headRow = 5.2
	bottom := a.y + headRow + float64(len(first))*row
	d := p.path()
	x := a.x
	for i, h := range heads {
		if b, ok := p.onOneLine(h, small, shares[i]*a.w-1.6); ok {
			p.text(x+0.8, a.y+3.6, b.style, h)
		}
		d.move(x, a.y+headRow)
		d.to(x, bottom)
		x += shares[i] * a.w
	}
	d.move(a.x+a.w, a.y+headRow)
	d.to(a.x+a.w, bottom)
	for i := 0; i <= len(first); i++ {
		y := a.y + headRow + float64(i)*row
		d.move(a.x, y)
		d.to(a.x+a.w, y)
		if i < len(first) && first[i] != "" {
			if b, ok := p.onOneLine(first[i], text, shares[0]*a.w-1.6); ok {
				p.text(a.x+0.8, y+row/2+b.capHeight()/2, b.style, first[i])
			}
		}
	}
	p.stroke(d, thin)
	return bottom
}

// caution prints a warning in a thick frame and returns the frame's height.
func (p *paper) caution(a area, s string) float64 {
	st := text.heavy()
	tall := p.paraTall(a.w-6, st, s) + 4
	p.box(a.x, a.y, a.w, tall, thick)
	p.para(a.x+3, a.y+2.6, a.w-6, st, s)
	return tall
}
