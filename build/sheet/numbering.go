package sheet

import (
	"io"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// Numbering writes how a tile keeps its number through two firings, and every
// number still to be put on raw clay, to be ticked in order.
func Numbering(w io.Writer, job Job) (pages int, err error) {
	var due []tiles.Tile
	for _, t := range job.due() {
		if t.Status == tiles.Planned {
			due = append(due, t)
		}
	}
	if len(due) == 0 {
		return 0, ErrNothing
	}
	s, err := newPinned(job, "Numbers on raw tiles", "Number the tiles in this order while the clay is leather-hard, and tick each.", false)
	if err != nil {
		return 0, err
	}
	s.written = true
	items := []item{{head: true,
		flowPart: flowPart{s.numberHowTall(), s.numberHow},
		again:    flowPart{9, func(a area) { s.text(a.x, a.y+5, head, "Numbers on raw tiles, continued") }},
	}}
	for from := 0; from < len(due); from += rawColumns {
		row := due[from:min(from+rawColumns, len(due))]
		items = append(items, item{flowPart: flowPart{rawRow, func(a area) { s.rawRow(a, row) }}})
	}
	s.addPages(spread(items, s.body().h))
	return s.bind(w)
}

// A row of numbers to tick.
const (
	rawColumns = 8
	rawRow     = 7.6
)

func (s *pinned) rawRow(a area, row []tiles.Tile) {
	wide := a.w / rawColumns
	for i, t := range row {
		x := a.x + float64(i)*wide
		s.tick(x, a.y+5.4, style{pt: 12})
		s.number(x+6, a.y+5.4, style{pt: 12, figures: true}, t.Number)
	}
}

// The drawing at the left of the how-to, mm.
const numberDrawn = 34.0

func (s *pinned) numberHowTall() float64 {
	return max(numberDrawn*1.5, s.numberWords(area{w: s.body().w - numberDrawn - 8}, false)) + 6
}

// numberHow draws where the number goes and says how it is put there.
func (s *pinned) numberHow(a area) {
	shape := s.job.Wall.Settings.Tile
	scale := min(numberDrawn/shape.Width, numberDrawn*1.5/shape.Height)
	t := area{a.x + 1, a.y + 2, shape.Width * scale, shape.Height * scale}
	s.tileOutline(t, scale)
	if place := plan.NumberAt(shape); place.Strip {
		st := s.numberStyle(128, t.w*0.5, place.Tall*scale)
		s.number(t.x+(t.w-s.width(st, "128"))/2, t.y+t.h-(shape.Bare*scale-st.figureHeight())/2, st, 128)
	}
	s.numberWords(area{a.x + numberDrawn + 8, a.y + 1, a.w - numberDrawn - 8, 0}, true)
}

// numberWords prints the how-to and returns its height; with draw false it only
// measures.
func (s *pinned) numberWords(a area, draw bool) float64 {
	y := a.y
	for _, l := range numberSteps(s.job.Wall.Settings) {
		if draw {
			s.bullet(a.x, y, a.w, small, l)
		}
		y += s.paraTall(a.w-3.2, small, l) + 0.35*small.mm()
	}
	return y - a.y
}

// numberSteps says how a number stays on a tile (common practice, most of it
// found written).
func numberSteps(s tiles.Settings) []string {
	steps := []string{
		"Cut the tile" + withParts(s.Tile) + ", let it stiffen, and number it before it dries.",
		plan.NumberAt(s.Tile).Words(s),
		"Stamp the number or scratch it with a needle, deep enough to feel. Underline every 6 and 9.",
		"When it is dry, brush iron-oxide wash or a dark underglaze into the figures and wipe the face clean with a damp sponge; then the bisque firing. Gloves with oxides.",
		"After the bisque a number that has gone faint is written again with an underglaze pencil, on the same bare place, before it is waxed or glazed. Graphite, ink and paper burn away.",
		"Write nothing of the pair on the clay: the number is the tile’s name, and the plan knows the rest. Spares stay blank until a tile breaks: then one takes its number.",
	}
	return steps
}

// withParts names the hole and the strip where the settings have them.
func withParts(t tiles.Shape) string {
	switch {
	case t.Hole > 0 && t.Texture > 0:
		return ", pierce the hole and comb the strip as drawn"
	case t.Hole > 0:
		return " and pierce the hole as drawn"
	case t.Texture > 0:
		return " and comb the strip as drawn"
	}
	return ""
}
