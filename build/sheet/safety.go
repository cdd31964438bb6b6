package sheet

import "io"

// advice is one part of the safety sheet.
type advice struct {
	title string
	said  []string
}

// safetyWords is the usual caution of a studio. Each figure names the rule it
// comes from; what names none is common practice, found written or widely done.
var safetyWords = []advice{
	{"Dust", []string{
		"Dry clay and glaze dust holds silica, which scars the lungs. Wipe and mop wet. Never sweep, never blow.",
		"Weigh and mix dry powder away from students, with exhaust and a fitted respirator. Powder goes into water, not water onto powder.",
		"Employees’ limit in the US: 50 µg/m³ over 8 hours, action at 25 (29 CFR 1910.1053). Students are not employees: keep to it for them too.",
	}},
	{"Glaze on hands", []string{
		"Gloves for dipping; always over cuts. Wash before you leave. No food, drink or make-up in the glaze area.",
		"Barium, lithium, manganese, vanadium, nickel, cobalt and chrome are in some glazes. Read the bucket’s card.",
		"Pregnant, or it may be: ask a doctor, and keep away from powders and firing fumes.",
		"No lead, no cadmium in a shared studio.",
	}},
	{"Mixing with a drill", []string{
		"Bucket lidded or guarded and clamped; supply with a residual-current breaker (GFCI). Hair, lanyards and gloves clear of the shaft.",
	}},
	{"Kiln", []string{
		"The kiln’s manual and the fire code say how far from walls it stands, and who may wire it. A licensed electrician does.",
		"It vents outdoors, away from air intakes. Firing gives off carbon monoxide and metal vapor: nobody works in its room.",
		"Look in only through welder’s-type eyewear. Open at 100 °C (212 °F) or less. Power off before a hand goes near the elements.",
		"Grind and chip with eyes covered: glaze drips and burst blisters cut like glass. Flakes off a rim: stop using the piece.",
	}},
	{"Food", []string{
		"Two coats make a third glaze. Neither glaze’s label holds for it: not tested for food.",
		"A tile cannot be leach-tested; it takes cups or bowls, several of one lot, at a laboratory (ASTM C738: 4 % acetic acid, 24 h).",
		"Ware only to look at is marked so for good, or drilled through (21 CFR 109.16).",
	}},
	{"Labels", []string{
		"A glaze mixed here carries no maker’s label. Keep the safety data sheet of every material where anybody can read it.",
		"“Conforms to ASTM D4236” says that hazards are named on the package, not that there are none.",
	}},
}

// Safety writes the cautions on one page, with room for who to call.
func Safety(w io.Writer, job Job) (pages int, err error) {
	s, err := newPinned(job, "Working safely", "Pin it where glaze is mixed and dipped. Local codes and licensed practice come first.", false)
	if err != nil {
		return 0, err
	}
	s.add(s.safety)
	return s.bind(w)
}

func (s *pinned) safety(body area) {
	gap := 8.0
	wide := (body.w - gap) / 2
	y := body.y + s.caution(area{body.x, body.y, body.w, 0},
		"This sheet is not legal or medical advice. Where it and your local code, the kiln’s manual, a data sheet or a doctor differ, they are right.") + 5
	columns := [2][]advice{safetyWords[:3], safetyWords[3:]}
	end := y
	for i, column := range columns {
		at := y
		for _, part := range column {
			at = s.advice(body.x+float64(i)*(wide+gap), at, wide, part) + 3
		}
		end = max(end, at)
	}
	s.callList(area{body.x, end + 1, body.w, body.y + body.h - end - 1})
}

// advice prints one part and returns where the next may begin.
func (p *paper) advice(x, y, w float64, part advice) float64 {
	p.text(x, y+head.capHeight(), head, part.title)
	y += head.capHeight() + 2.5
	p.line(x, y-0.6, x+w, y-0.6, thin)
	y += 1.2
	for _, s := range part.said {
		y = p.bullet(x, y, w, text.at(9.5), s) + 0.6
	}
	return y
}

// callList is filled in by hand: who is called, and where things are.
func (p *paper) callList(a area) {
	p.line(a.x, a.y, a.x+a.w, a.y, thick)
	p.text(a.x, a.y+7, head, "Ours")
	lines := []string{"emergency number", "poison center", "responsible here", "kiln repair, licensed", "breaker of the kiln is", "extinguisher is", "first aid and eyewash are", "data sheets are"}
	half := (len(lines) + 1) / 2
	for i, l := range lines {
		x := a.x + float64(i/half)*(a.w/2+4)
		p.blank(x, a.y+15+float64(i%half)*8, a.w/2-4, l)
	}
}
