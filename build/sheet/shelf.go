package sheet

import (
	"fmt"
	"io"
	"strings"

	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/plan"
)

// Shelves writes a map of every kiln shelf of every load that is not fired:
// which tile stands where, seen from above, the lowest shelf first.
func Shelves(w io.Writer, job Job) (pages int, err error) {
	s, err := newPinned(job, "Shelf maps", "Load each shelf as drawn, seen from above; the lowest first. Tick it when it is loaded.", false)
	if err != nil {
		return 0, err
	}
	s.written = true
	f := s.flow()
	for _, l := range s.loadsDue() {
		k := s.shelfScale(l)
		s.loadHead(f, l)
		for _, shelf := range l.Shelves {
			if len(shelf.Places) > 0 {
				m := shelfMap{pinned: s, load: l.Number, shelf: shelf, k: k}
				f.add(m.tall(), 0, m.draw)
			}
		}
		f.turn()
	}
	s.pieces(f)
	f.turn()
	if len(s.pages) == 0 {
		return 0, ErrNothing
	}
	return s.bind(w)
}

// loadsDue lists the planned loads that are not fired; where only new tiles
// are wanted, those that hold one.
func (p *paper) loadsDue() []plan.Load {
	var due []plan.Load
	for _, l := range plan.Loads(p.job.Wall) {
		if l.Fired {
			continue
		}
		wanted := p.job.New == nil
		for _, shelf := range l.Shelves {
			for _, place := range shelf.Places {
				wanted = wanted || p.job.New[place.Tile.Number]
			}
		}
		if wanted {
			due = append(due, l)
		}
	}
	return due
}

// loadHead says which load it is and what it holds.
func (s *pinned) loadHead(f *flow, l plan.Load) {
	count, slabs := 0, 0
	for _, shelf := range l.Shelves {
		count += len(shelf.Places)
		for _, p := range shelf.Places {
			if p.Slab > 0 {
				slabs++
			}
		}
	}
	said := english.Count(count, "tile", "tiles")
	if slabs > 0 {
		said += fmt.Sprintf(", %d of them on waste slabs", slabs)
	}
	f.add(12, 60, func(a area) {
		s.text(a.x, a.y+6, head, fmt.Sprintf("Load %d", l.Number))
		s.text(a.x+s.width(head, fmt.Sprintf("Load %d", l.Number))+4, a.y+6, text, said)
		s.text(a.x+a.w*0.62, a.y+6, small, "cone "+s.cone())
		s.setting(a.x+a.w*0.74, a.y+6, a.w*0.26, small, clean(s.job.Wall.Kiln.Name), "kiln: name")
	})
}

// The list of a shelf's tiles stands below its map, in columns.
const (
	mapColumns = 4
	mapRow     = 4.2
	mapAround  = 20.0 // head, "front" and the signs
)

// shelfScale is mm of paper per mm of shelf, the same for all shelves of a
// load: as large as the fullest shelf and its list leave room for on a page.
func (s *pinned) shelfScale(l plan.Load) float64 {
	k := 1.0
	body := s.body()
	for _, shelf := range l.Shelves {
		if shelf.Width > 0 && shelf.Depth > 0 && len(shelf.Places) > 0 {
			room := body.h - 12 - mapAround - float64(listRows(shelf))*mapRow
			k = min(k, body.w/shelf.Width, max(room, 60)/shelf.Depth)
		}
	}
	return k
}

func listRows(s plan.Shelf) int { return (len(s.Places) + mapColumns - 1) / mapColumns }

// shelfMap draws one shelf.
type shelfMap struct {
	*pinned
	load  int
	shelf plan.Shelf
	k     float64
}

func (m shelfMap) tall() float64 {
	return m.k*m.shelf.Depth + float64(listRows(m.shelf))*mapRow + mapAround
}

func (m shelfMap) draw(a area) {
	if a.y > m.body().y+1 {
		m.line(a.x, a.y, a.x+a.w, a.y, thin)
	}
	y := a.y + 6
	name := fmt.Sprintf("Load %d, shelf %s", m.load, clean(m.shelf.Name))
	wide := m.text(a.x, y, text.heavy(), name)
	m.bookmark(a.y, name)
	said := fmt.Sprintf("level %d from the bottom, %s", m.shelf.Level, english.Count(len(m.shelf.Places), "tile", "tiles"))
	if m.shelf.Clear > 0 {
		said += fmt.Sprintf(", %s posts above", m.job.Wall.Units.Length(m.shelf.Clear))
	}
	m.text(a.x+wide+3, y, small, said)
	m.choice(a.x+a.w-16, y, small, "loaded")
	x, top := a.x+(a.w-m.k*m.shelf.Width)/2, a.y+9
	if m.shelf.Width > 0 && m.shelf.Depth > 0 {
		m.outline(x, top)
		for _, p := range m.shelf.Posts {
			m.post(x, top, p)
		}
		for _, k := range m.shelf.Kept {
			m.kept(x, top, k)
		}
		for _, p := range m.shelf.Places {
			m.tile(x, top, p)
		}
		m.textMiddle(x+m.k*m.shelf.Width/2, top+m.k*m.shelf.Depth+3.8, small, "front")
	}
	m.list(area{a.x, top + m.k*m.shelf.Depth + 5.5, a.w, 0})
}

// outline draws the shelf; its front edge is below.
func (m shelfMap) outline(x, y float64) {
	w, d := m.k*m.shelf.Width, m.k*m.shelf.Depth
	m.rule(0.3)
	switch m.shelf.Shape {
	case "round":
		m.pdf.Ellipse(x+w/2, y+d/2, w/2, d/2, 0, "D")
	case "half-round":
		m.pdf.Arc(x+w/2, y+d, w/2, d, 0, 0, 180, "D")
		m.line(x, y+d, x+w, y+d, 0.3)
	default:
		m.box(x, y, w, d, 0.3)
	}
}

// at turns mm from the shelf's left and front edge into the page's.
func (m shelfMap) at(x, y, sx, sy float64) (px, py float64) {
	return x + m.k*sx, y + m.k*(m.shelf.Depth-sy)
}

func (m shelfMap) post(x, y float64, p plan.Post) {
	cx, cy := m.at(x, y, p.X, p.Y)
	half := m.k * p.Side / 2
	d := m.path()
	hatch(d, area{cx - half, cy - half, 2 * half, 2 * half}, 0.8, false)
	m.stroke(d, hair)
	m.box(cx-half, cy-half, 2*half, 2*half, thin)
}

// kept draws a place that stays free for the cones or the thermocouple, with
// what it is for.
func (m shelfMap) kept(x, y float64, k plan.Kept) {
	cx, cy := m.at(x, y, k.X, k.Y)
	w, d := m.k*k.Width, m.k*k.Depth
	m.pdf.SetDashPattern([]float64{0.3, 0.9}, 0)
	m.box(cx-w/2, cy-d/2, w, d, thin)
	m.pdf.SetDashPattern(nil, 0)
	said := k.For
	if k.For == "cones" {
		said = plan.ConeSet(m.job.Wall.Settings)
	}
	if b, ok := m.fitWords(said, style{pt: 6}, w-0.6, d, 4); ok {
		m.blockMiddle(cx, cy-b.tall()/2, b)
	}
}

// tile draws a tile's footprint with its number, and the waste slab under it.
func (m shelfMap) tile(x, y float64, p plan.Placement) {
	cx, cy := m.at(x, y, p.X, p.Y)
	w, d := m.k*p.Width, m.k*p.Depth
	if p.Slab > 0 {
		m.pdf.SetDashPattern([]float64{0.8, 0.8}, 0)
		m.box(cx-w/2-m.k*p.Slab, cy-d/2-m.k*p.Slab, w+2*m.k*p.Slab, d+2*m.k*p.Slab, hair)
		m.pdf.SetDashPattern(nil, 0)
	}
	width := thin
	if p.Control {
		width = 0.6
	}
	m.box(cx-w/2, cy-d/2, w, d, width)
	st := m.numberStyle(p.Tile.Number, min(w-0.8, 14), min(max(d-0.8, 3.2), 6))
	wide, tall := m.width(st, p.Tile.Number.String()), st.figureHeight()
	if d < numberTall(st)+0.6 {
		// Clear the outline of a tile thinner than its number.
		m.pdf.SetFillColor(255, 255, 255)
		m.pdf.Rect(cx-wide/2-0.5, cy-tall/2-0.3, wide+1, tall+0.6, "F")
		m.pdf.SetFillColor(0, 0, 0)
	}
	m.number(cx-wide/2, cy+tall/2, st, p.Tile.Number)
}

// list names every tile of the shelf by its pair, in the order of their
// numbers, and says what the signs mean.
func (m shelfMap) list(a area) {
	rows := listRows(m.shelf)
	wide := a.w / mapColumns
	y := a.y + small.capHeight()
	var control, slab bool
	for i, p := range m.shelf.Places {
		x, at := a.x+float64(i/rows)*wide, y+float64(i%rows)*mapRow
		m.textRight(x+8, at, small.heavy(), p.Tile.Number.String())
		said := clean(p.Tile.Pair.String())
		if p.Control {
			said, control = said+", control", true
		}
		if p.Slab > 0 {
			said, slab = said+", slab", true
		}
		if b, ok := m.onOneLine(said, small, wide-11); ok {
			m.text(x+10, at, b.style, said)
		}
	}
	var signs []string
	if control {
		signs = append(signs, "thick: control")
	}
	if slab {
		signs = append(signs, "dashed: waste slab")
	}
	if len(m.shelf.Posts) > 0 {
		signs = append(signs, "hatched: post")
	}
	m.textRight(a.x+a.w, a.y-1.7, small.at(7), strings.Join(signs, ", "))
}
