package sheet

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
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
			old[lower(t.First)], old[lower(t.Second)] = true, true
		}
	}
	return slices.DeleteFunc(list, func(g tiles.Glaze) bool { return old[lower(g.Code)] })
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
	code := style{pt: 64, bold: true}
	if wide := s.width(code, clean(g.Code)); wide > w*0.62 {
		code.pt *= w * 0.62 / wide
	}
	s.text(x, a.y+cardPad+16.5, code, clean(g.Code))
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
	s.table(area{x, y + 1, w, 0}, 6.4, []string{"mixed on", "batch", "SG", "sieved", "by"}, []float64{0.27, 0.23, 0.16, 0.17, 0.17}, make([]string, max(rows, 0)))
}

// cardFacts prints at the right of the code what is measured.
func (p *paper) cardFacts(right, y float64, g tiles.Glaze) {
	facts := []string{}
	if cone := first(g.Cone, p.job.Wall.Cone); cone != "" {
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

func first(words ...string) string {
	for _, w := range words {
		if w != "" {
			return w
		}
	}
	return ""
}

// cardLine is one thing to mind; heavy where a hand or a meal is at risk.
type cardLine struct {
	words string
	heavy bool
}

// cardWords says what to mind at this bucket: how to dip, then its traits, the
// teacher's own cautions, and the pairs that are never made with it.
func cardWords(w tiles.Wall, g tiles.Glaze) []cardLine {
	var said []cardLine
	say := func(heavy bool, s string) { said = append(said, cardLine{s, heavy}) }
	if g.Has(tiles.Soluble) {
		say(true, "Soluble salts: waterproof gloves, always over cuts. Never dip twice to mend a coat.")
	}
	if g.Has(tiles.NotFood) {
		say(true, "Never where food or drink touches.")
	}
	for _, c := range g.Cautions {
		if c = strings.TrimRight(clean(c), "."); c != "" {
			say(true, upperFirst(c)+".")
		}
	}
	how := "Stir to the bottom"
	if w.Dip.Stir > 0 {
		how += fmt.Sprintf(", again every %s minutes", mm(w.Dip.Stir))
	}
	if w.Dip.Seconds > 0 {
		how += fmt.Sprintf(". Dip %s seconds", mm(w.Dip.Seconds))
	}
	say(false, how+". Lid on before the next bucket is opened.")
	if g.SG > 1 {
		say(false, fmt.Sprintf("250 ml weigh %.0f g without the vessel. At SG %.2f add %.1f L of water to 10 L.",
			plan.NetWeight(g.SG, 250), g.SG+0.05, plan.WaterToThin(10, g.SG+0.05, g.SG)))
	}
	say(false, "As 2nd: from a cup, never in this bucket; throw the rest of the cup away.")
	for _, t := range []struct {
		trait tiles.Trait
		words string
	}{
		{tiles.Runny, "Runs: 25 mm bare at the foot, waste slab under it."},
		{tiles.Crawls, "Crawls: as 2nd thin, over a coat that is touch-dry."},
		{tiles.Slick, "Dries slick: what goes over it may slide off."},
		{tiles.Colorant, "Strong colorant: dip it last, rinse hands and tongs."},
		{tiles.NeverFirst, "Never as 1st under another glaze here."},
		{tiles.NeverSecond, "Never as 2nd over another glaze here."},
	} {
		if g.Has(t.trait) {
			say(false, t.words)
		}
	}
	if over, under := neverWith(w, g); over != "" || under != "" {
		if over != "" {
			say(false, "Never 1st "+clean(g.Code)+" → 2nd "+over+".")
		}
		if under != "" {
			say(false, "Never 1st "+under+" → 2nd "+clean(g.Code)+".")
		}
	}
	say(false, "Two coats: not tested for food.")
	return said
}

// neverWith lists the codes the rules skip as second over the glaze, and as
// first under it.
func neverWith(w tiles.Wall, g tiles.Glaze) (over, under string) {
	if g.Has(tiles.NeverFirst) || g.Has(tiles.NeverSecond) {
		return "", "" // said in one line already
	}
	var a, b []string
	for _, other := range inUse(w) {
		if tiles.SameCode(other.Code, g.Code) || other.Has(tiles.NeverFirst) || other.Has(tiles.NeverSecond) {
			continue
		}
		pair := tiles.Pair{First: g.Code, Second: other.Code}
		if plan.Judge(w.Settings, w.Glazes, pair).Do == plan.Skip {
			a = append(a, clean(other.Code))
		}
		if plan.Judge(w.Settings, w.Glazes, pair.Reverse()).Do == plan.Skip {
			b = append(b, clean(other.Code))
		}
	}
	return strings.Join(a, ", "), strings.Join(b, ", ")
}

func upperFirst(s string) string {
	for i, r := range s {
		return strings.ToUpper(string(r)) + s[i+len(string(r)):]
	}
	return s
}
