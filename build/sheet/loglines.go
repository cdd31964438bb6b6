package sheet

import (
	"io"
	"math"
)

// LogLines writes the glazing log a line a piece: what a busy studio fills in
// standing up, more than twenty pieces a page.
func LogLines(w io.Writer, job Job) (pages int, err error) {
	s, err := newPinned(job, "Glazing log, a line a piece", "Write down every piece before it goes on the kiln shelf, the good ones too.", true)
	if err != nil {
		return 0, err
	}
	s.add(func(body area) {
		y := s.codeList(body) + 2
		s.text(body.x, y+3, small, "1st on the clay, 2nd over it; “where” is where the 2nd goes. After the firing: good, or the fault, where, and how bad (1 to 3). Two coats: not tested for food.")
		y += 5
		heads, shares := logColumns()
		rows := int((body.y + body.h - y - 5.2) / logLine)
		row := (body.y + body.h - y - 5.2) / float64(max(rows, 1))
		s.table(area{body.x, y, body.w, 0}, row, heads, shares, make([]string, max(rows, 0)))
	})
	return s.bind(w)
}

// logLine is the height of a line to write in with wet fingers, mm.
const logLine = 6.2

// logColumns are the log's columns as twodip log reads them back, in the order
// they are known.
func logColumns() (heads []string, shares []float64) {
	all := []struct {
		head string
		part float64
	}{
		{"date", 8}, {"maker", 11}, {"piece", 12}, {"clay", 7}, {"1st", 6}, {"→ 2nd", 7}, {"how", 6}, {"where", 10},
		{"load", 6}, {"shelf", 7}, {"good", 5}, {"fault", 11}, {"where on it", 9}, {"how bad", 6},
	}
	sum := 0.0
	for _, c := range all {
		sum += c.part
	}
	for _, c := range all {
		heads, shares = append(heads, c.head), append(shares, c.part/sum)
	}
	return heads, shares
}

// LogCards writes the log as cards, two a page: one stays with its piece from
// the glazing table to the kiln.
func LogCards(w io.Writer, job Job) (pages int, err error) {
	s, err := newPinned(job, "Glazing log, a card a piece", "Cut in two. One card goes with each piece to the kiln shelf; afterwards its row goes into the log.", false)
	if err != nil {
		return 0, err
	}
	s.add(func(body area) {
		tall := math.Floor(body.h/2) - 2
		for i := range 2 {
			a := area{body.x, body.y + float64(i)*(tall+4), body.w, tall}
			s.logCard(a)
			if i == 0 {
				s.dashed(0, a.y+tall+2, s.w, a.y+tall+2, hair, 2, 2)
			}
		}
	})
	return s.bind(w)
}

// logCard is one card: the codes, then a large entry.
func (s *pinned) logCard(a area) {
	y := s.codeList(area{a.x, a.y + 1, a.w, 0}) + 2
	s.line(a.x, y, a.x+a.w, y, thin)
	s.text(a.x, y+4, small, "Two coats at most: 1st on the clay, 2nd over it. Stir; wait until nothing shines; wipe the foot. Two coats are not tested for food.")
	y += 7
	s.entry(area{a.x, y, a.w, min(a.y+a.h-y, 62)})
}
