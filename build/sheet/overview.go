package sheet

import (
	"fmt"
	"io"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// Overview writes the whole wall on one page: which pair has which number, and
// how far it has come.
func Overview(w io.Writer, job Job) (pages int, err error) {
	g, err := newGrid(job)
	if err != nil {
		return 0, err
	}
	s, err := newPinned(job, "The wall on one page", "Find a pair’s number: 1st glaze down the side, 2nd along the top.", false)
	if err != nil {
		return 0, err
	}
	o := overview{pinned: s, wall: g}
	if err := o.layOut(s.body()); err != nil {
		return 0, err
	}
	s.add(o.draw)
	return s.bind(w)
}

// overview is the matrix of a wall on one page.
type overview struct {
	*pinned
	wall       *wallGrid
	rows, cols int
	left, top  float64 // the heads, mm
	cellW      float64
	cellH      float64
	number     style
	turned     bool // numbers stand on end, so that four figures fit a narrow cell
	codes      style
	key        float64 // height of the list of codes and names, where names stand in it, mm
	names      bool    // names stand beside the codes of the rows, and above the columns
}

// legend is the room for what the signs mean, mm.
const legend = 16.0

// layOut gives names as much room as the cells can spare.
func (o *overview) layOut(body area) error {
	o.rows, o.cols = len(o.wall.rows)-2, len(o.wall.cols)-2
	longest, code := 0.0, 0.0
	for _, g := range o.job.Wall.Glazes {
		longest = max(longest, o.width(small, clean(g.Name)))
		code = max(code, o.width(small.heavy(), clean(g.Code)))
	}
	o.codes = small.heavy()
	o.left, o.top = code+2.5, code+2.5
	if with := code + longest + 5; with < body.w*0.36 && float64(o.cols)*4.5 <= body.w-with {
		o.names, o.left, o.top = true, with, with
	}
	if !o.names {
		o.key = o.keyTall(body)
	}
	o.cellW = min(16, (body.w-o.left)/float64(o.cols))
	o.cellH = min(16, (body.h-o.top-legend-o.key)/float64(o.rows))
	if o.names {
		o.cellH = min(o.cellH, o.cellW)
	}
	o.codes.pt = min(o.codes.pt, min(o.cellH, o.cellW)/1.15/mmPerPoint)
	return o.setNumbers()
}

// keyTall is the room for a list of codes with their names, where those do not
// fit beside the rows; a wall so large that the list would take its cells' room
// has none, and that is said.
func (o *overview) keyTall(body area) float64 {
	tall := float64((len(inUse(o.job.Wall))+2)/3)*codeRow + 4
	if tall > body.h*0.25 {
		o.job.say("the overview has no room for the glazes' names: it shows codes alone, and the heads (the sheet “tags”) name them")
		return 0
	}
	return tall
}

// leastOverview is the smallest type a number is printed in, points: figures
// of 1 mm, which read at 200 mm, with the page in the hand.
const leastOverview = 3.8

// numberAir is the white between a number and the rules around it, both sides
// together, mm.
const numberAir = 1.1

func (o *overview) setNumbers() error {
	widest := o.widest(o.job.Wall.Tiles).String()
	st := style{pt: 10}
	flat := min((o.cellW-numberAir)/o.width(st, widest), (o.cellH-numberAir)/st.figureHeight())
	end := min((o.cellH-numberAir)/o.width(st, widest), (o.cellW-numberAir)/st.figureHeight())
	o.turned = end > flat*1.15 && flat*st.pt < 6
	if o.turned {
		flat = end
	}
	o.number = st.at(min(13, st.pt*flat))
	if o.number.pt < leastOverview || o.codes.pt < leastOverview {
		return TooLarge{tiles.Problem{File: o.job.list(), What: fmt.Sprintf("%d by %d tiles do not read on one page", o.rows, o.cols),
			Do: "print the grid instead"}}
	}
	return nil
}

func (o *overview) draw(body area) {
	x, y := body.x+o.left, body.y+o.top
	for c := range o.cols {
		o.columnName(x+(float64(c)+0.5)*o.cellW, y-1.5, o.wall.columns[c])
	}
	d := o.path()
	for r := range o.rows {
		o.rowName(body.x, y+(float64(r)+0.5)*o.cellH, o.job.Wall.Glazes[r])
		for c := range o.cols {
			o.cell(area{x + float64(c)*o.cellW, y + float64(r)*o.cellH, o.cellW, o.cellH}, r+1, c+1)
		}
	}
	for r := 0; r <= o.rows; r++ {
		d.move(x, y+float64(r)*o.cellH)
		d.to(x+float64(o.cols)*o.cellW, y+float64(r)*o.cellH)
	}
	for c := 0; c <= o.cols; c++ {
		d.move(x+float64(c)*o.cellW, y)
		d.to(x+float64(c)*o.cellW, y+float64(o.rows)*o.cellH)
	}
	o.stroke(d, hair)
	o.corner(body, x, y)
	o.legend(area{body.x, y + float64(o.rows)*o.cellH + 5, body.w, legend})
	if o.key > 0 {
		o.codeList(area{body.x, y + float64(o.rows)*o.cellH + 5 + legend - 4, body.w, o.key})
	}
}

// corner says what runs which way, where there is room for it.
func (o *overview) corner(body area, x, y float64) {
	if !o.names {
		return
	}
	o.textRight(x-2, y-2, small, "1st ↓")
	o.textRight(x-2, y-6.5, small, "2nd →")
}

func (o *overview) rowName(x, y float64, g tiles.Glaze) {
	base := y + o.codes.capHeight()/2
	o.text(x, base, o.codes, clean(g.Code))
	if o.names {
		o.textRight(x+o.left-2, base, small, clean(g.Name))
	}
}

// columnName prints a head that reads upward.
func (o *overview) columnName(x, y float64, c gridColumn) {
	o.pdf.TransformBegin()
	o.pdf.TransformRotate(90, x, y)
	base := y + o.codes.capHeight()/2
	switch {
	case c.alone:
		o.text(x, base, o.codes, "alone")
	default:
		o.text(x, base, o.codes, clean(c.glaze.Code))
		if o.names {
			o.text(x+o.width(o.codes, clean(c.glaze.Code))+2, base, small, clean(c.glaze.Name))
		}
	}
	o.pdf.TransformEnd()
}

// cell prints a tile's number and how far it has come, or a line through the
// place of a pair that has no tile.
func (o *overview) cell(a area, row, col int) {
	p, ok := o.wall.places[cellKey{row, col}]
	if !ok {
		o.line(a.x, a.y+a.h, a.x+a.w, a.y, hair)
		return
	}
	t, _ := o.job.Wall.Tile(p.Tile)
	d := o.path()
	corner := min(a.w, a.h) * 0.28
	if t.Status == tiles.Fired {
		d.move(a.x+a.w, a.y+a.h)
		d.to(a.x+a.w-corner, a.y+a.h)
		d.to(a.x+a.w, a.y+a.h-corner)
		o.fill(d)
	}
	st := o.number
	if o.careful(t.Pair) {
		st.bold = true
	}
	x, y := a.x+a.w/2, a.y+a.h/2
	if o.turned {
		o.pdf.TransformBegin()
		o.pdf.TransformRotate(90, x, y)
		o.textMiddle(x, y+st.figureHeight()/2, st, t.Number.String())
		o.pdf.TransformEnd()
		return
	}
	o.textMiddle(x, y+st.figureHeight()/2, st, t.Number.String())
	if under := t.Number.String(); under == "6" || under == "9" {
		o.line(x-0.8, y+st.figureHeight()/2+0.5, x+0.8, y+st.figureHeight()/2+0.5, thin)
	}
}

// careful says that the studio's rules call for care with a pair.
func (o *overview) careful(p tiles.Pair) bool {
	return !p.Single() && plan.Judge(o.job.Wall.Settings, o.job.Wall.Glazes, p).Do == plan.Caution
}

// legend explains the signs and counts the tiles.
func (o *overview) legend(a area) {
	counts := map[tiles.Status]int{}
	for _, p := range o.wall.board.Places {
		t, _ := o.job.Wall.Tile(p.Tile)
		counts[t.Status]++
	}
	y := a.y + small.capHeight()
	d := o.path()
	d.move(a.x+2.4, y)
	d.to(a.x, y)
	d.to(a.x+2.4, y-2.4)
	o.fill(d)
	at := a.x + 3.6
	at += o.text(at, y, small, fmt.Sprintf("fired: %d", counts[tiles.Fired])) + 6
	at += o.text(at, y, small, fmt.Sprintf("no corner, planned: %d", counts[tiles.Planned])) + 6
	at += o.text(at, y, small.heavy(), "bold") + 1.5
	at += o.text(at, y, small, "with care, see the glaze’s card") + 6
	o.line(at, y, at+2.4, y-2.4, hair)
	o.text(at+3.6, y, small, "no tile")
	o.text(a.x, y+5, small, "A pair looked like its tile on that tile, in that firing. Two coats are not tested for food.")
}
