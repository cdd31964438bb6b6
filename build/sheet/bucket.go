package sheet

import (
	"fmt"
	"io"
	"slices"

	"github.com/twodip/twodip/tiles"
)

// Buckets writes a card for every bucket in use, four to a page: its code to
// be read from across the room, how to dip it, what to mind, and a table for
// every mix and correction.
func Buckets(w io.Writer, job Job) (pages int, err error) {
	list := job.cardsDue()
	if len(list) == 0 {
		return 0, ErrNothing
	}
	s, err := newPinned(job, "Bucket cards", "Cut, cover with clear film, and tie one to every bucket. Write every mix on it.", false)
	if err != nil {
		return 0, err
	}
	const perPage = 4
	for from := 0; from < len(list); from += perPage {
		cards := list[from:min(from+perPage, len(list))]
		for _, g := range cards {
			if _, err := s.cardName(g, (s.body().w)/2); err != nil {
				return 0, tiles.Problem{File: job.list(), Line: g.Line, What: fmt.Sprintf("the name of glaze %s %s", g.Code, err), Do: "shorten the name"}
			}
		}
		s.add(func(body area) {
			wide, tall := body.w/2, body.h/2
			for i, g := range cards {
				s.card(area{body.x + float64(i%2)*wide, body.y + float64(i/2)*tall, wide, tall}, g)
			}
		})
	}
	return s.bind(w)
}

// cardsDue lists the glazes in use; where only what is new is wanted, those
// that no older tile carries.
func (j Job) cardsDue() []tiles.Glaze {
	list := inUse(j.Wall)
	if j.New == nil {
		return list
	}
	old := map[string]bool{}
	for _, t := range j.Wall.Tiles {
		if !j.New[t.Number] {
			old[tiles.CodeKey(t.First)], old[tiles.CodeKey(t.Second)] = true, true
		}
	}
	return slices.DeleteFunc(list, func(g tiles.Glaze) bool { return old[tiles.CodeKey(g.Code)] })
}

// cardPad is white inside a card's edge, mm.
const cardPad = 5.0

func (p *paper) cardName(g tiles.Glaze, wide float64) (block, error) {
	return p.fit(clean(g.Name), head, wide-2*cardPad, 13, 8)
}

// card is one bucket's.
func (s *pinned) card(a area, g tiles.Glaze) {
	s.pdf.SetDashPattern([]float64{1.5, 1.5}, 0)
	s.box(a.x, a.y, a.w, a.h, thin)
	s.pdf.SetDashPattern(nil, 0)
	x, w := a.x+cardPad, a.w-2*cardPad
	code := style{pt: 52, bold: true}
	if wide := s.width(code, clean(g.Code)); wide > w*0.62 {
		code.pt *= w * 0.62 / wide
	}
	s.text(x, a.y+cardPad+17.8, code, clean(g.Code))
	s.bookmark(a.y, g.Code+" "+g.Name)
	s.cardFacts(x+w, a.y+cardPad+4, g)
	name, _ := s.cardName(g, a.w)
	y := a.y + cardPad + 22
	s.block(x, y, name)
	y += name.tall() + 2
	s.line(x, y, x+w, y, thick)
	y += 2.5
	table := 4
	for _, l := range cardWords(s.job.Wall, g) {
		st := small
		if l.heavy {
			st = small.heavy()
		}
		if y+s.paraTall(w-3.2, st, l.words) > a.y+a.h-cardPad-float64(table)*6.4-7 {
			table = max(2, table-1)
		}
		y = s.bullet(x, y, w, st, l.words)
	}
	rows := int((a.y + a.h - cardPad - y - 6.2) / 6.4)
	s.table(area{x, y + 1, w, 0}, 6.4, []string{"date", "batch", "SG", "flow, s", "coat", "by"}, []float64{0.2, 0.2, 0.14, 0.15, 0.16, 0.15}, make([]string, max(rows, 0)))
}

// cardFacts prints at the right of the code what is measured.
func (p *paper) cardFacts(right, y float64, g tiles.Glaze) {
	facts := []string{}
	if cone := firstSaid(g.Cone, p.job.Wall.Cone); cone != "" {
		facts = append(facts, "cone "+clean(cone))
	}
	if g.Finish != "" {
		facts = append(facts, clean(g.Finish))
	}
	if g.SG > 0 {
		facts = append(facts, fmt.Sprintf("SG %.2f ± 0.02", g.SG))
	}
	for _, f := range facts {
		if b, ok := p.onOneLine(f, text, 30); ok {
			p.textRight(right, y, b.style, f)
		}
		y += 5
	}
}

func firstSaid(words ...string) string {
	for _, w := range words {
		if w != "" {
			return w
		}
	}
	return ""
}
