package sheet

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/target"
)

// cell draws one place: the corner, a head, or a tile's.
func (g *wallGrid) cell(row, col int, a area) {
	switch {
	case row == 0 && col == 0:
		g.corner(a)
	case row == 0:
		g.columnHead(a, g.columns[col-1])
	case col == 0:
		g.headCell(a, g.job.Wall.Glazes[row-1], "1st")
	default:
		g.place(a, row, col)
	}
}

// corner says which way the wall is read.
func (g *wallGrid) corner(a area) {
	y := a.y + 8
	g.text(a.x+3, y, small.heavy(), "2nd glaze: along the top →")
	g.text(a.x+3, y+6, small.heavy(), "1st glaze: down the side ↓")
	drawing := area{a.x + 3, y + 10, 9, min(18, a.h-21)}
	g.orderMarked(drawing, tiles.Pair{First: "a", Second: "b"}, g.job.Wall.Settings.Tile, small.heavy())
}

// columnHead names a column: its second glaze, or that there is none.
func (g *wallGrid) columnHead(a area, c gridColumn) {
	if !c.alone {
		g.headCell(a, c.glaze, "2nd")
		return
	}
	g.textRight(a.x+a.w-2.5, a.y+5.5, text.heavy(), "↓")
	g.textMiddle(a.x+a.w/2, a.y+a.h/2, head, "1st alone")
	g.textMiddle(a.x+a.w/2, a.y+a.h/2+6, text, "one coat")
}

// headCell names a row's or a column's glaze: code, then name.
func (g *wallGrid) headCell(a area, glaze tiles.Glaze, which string) {
	code := g.codeStyle
	b, err := g.headName(glaze)
	if err != nil {
		return // setType has reported it
	}
	tall := code.capHeight() + g.codeGap() + b.tall()
	y := a.y + 7 + (a.h-7-tall)/2
	g.text(a.x+2.5, a.y+5.5, text.heavy(), which)
	arrow := "→"
	if which == "2nd" {
		arrow = "↓"
	}
	g.textRight(a.x+a.w-2.5, a.y+5.5, text.heavy(), arrow)
	g.textMiddle(a.x+a.w/2, y+code.capHeight(), code, clean(glaze.Code))
	g.blockMiddle(a.x+a.w/2, y+code.capHeight()+g.codeGap(), b)
}

// place draws where a tile hangs: its outline, its number, its pair by code,
// and below it the tag that a photo of the wall is read by.
func (g *wallGrid) place(a area, row, col int) {
	shape := g.job.Wall.Settings.Tile
	t := area{a.x + (a.w-shape.Width)/2, a.y + g.above(), shape.Width, shape.Height}
	p, ok := g.places[cellKey{row, col}]
	if !ok {
		g.empty(t, g.pair(row, col))
		return
	}
	one, _ := g.job.Wall.Tile(p.Tile)
	g.box(t.x, t.y, t.w, t.h, 0.3)
	g.tileNumber(t, t.y+t.h*0.5, one)
	d := g.path()
	g.mark(d, p.Tag, t.x-p.Face.X, t.y-p.Face.Y)
	g.fill(d)
}

// above is the room in a cell above its tile: half of what the board leaves
// between a tag and the next tile below it.
func (g *wallGrid) above() float64 {
	p := g.board.Places[0]
	return max(0, g.board.PitchY-(p.Tag.Y+p.Tag.H-p.Face.Y)) / 2
}

// mark adds a square mark's black cells to a path, moved by dx and dy.
func (p *paper) mark(d *path, m target.Mark, dx, dy float64) {
	cell := m.Cell()
	for _, r := range m.Bits.Runs() {
		d.rect(m.X+dx+float64(r.X)*cell, m.Y+dy+float64(r.Y)*cell, float64(r.Length)*cell, cell)
	}
}

// tileNumber prints a number and, below it, the pair by code.
func (g *wallGrid) tileNumber(t area, y float64, one tiles.Tile) {
	num := g.numStyle
	g.number(t.x+(t.w-g.width(num, one.Number.String()))/2, y, num, one.Number)
	st := g.pairStyle(one.Pair, text.heavy(), t.w-3)
	g.textMiddle(t.x+t.w/2, y+numberTall(num)-num.figureHeight()+st.capHeight()+3, st, clean(one.Pair.String()))
}

// pairStyle shrinks a style until the pair's codes fit in w mm.
func (p *paper) pairStyle(pair tiles.Pair, st style, w float64) style {
	for st.pt > leastLabel && p.width(st, clean(pair.String())) > w {
		st.pt -= 0.25
	}
	return st
}

// empty draws a place without a tile and says why.
func (g *wallGrid) empty(t area, pair tiles.Pair) {
	g.pdf.SetDashPattern([]float64{2, 2}, 0)
	g.box(t.x, t.y, t.w, t.h, thin)
	g.pdf.SetDashPattern(nil, 0)
	st := g.pairStyle(pair, text.heavy(), t.w-3)
	g.textMiddle(t.x+t.w/2, t.y+t.h/2, st, clean(pair.String()))
	b, err := g.fit(g.whyEmpty(pair), small, t.w-4, t.h/2-5, leastLabel)
	if err != nil {
		g.job.say(fmt.Sprintf("why %s has no tile is too long to say in its place on the grid", pair))
		return
	}
	g.blockMiddle(t.x+t.w/2, t.y+t.h/2+3, b)
}

// whyEmpty says why no tile hangs: in the plan's words where it has a row.
func (g *wallGrid) whyEmpty(pair tiles.Pair) string {
	t, ok := g.job.Wall.Own(pair)
	switch {
	case !ok && (g.job.Wall.Glaze(pair.First).Retired || g.job.Wall.Glaze(pair.Second).Retired && !pair.Single()):
		return "no tile: glaze retired"
	case !ok:
		if v := plan.Judge(g.job.Wall.Settings, g.job.Wall.Glazes, pair); v.Do == plan.Skip {
			return "skipped: " + clean(v.Reason())
		}
		return "no tile in the plan"
	case t.Reason != "":
		return string(t.Status) + ": " + clean(t.SayReason())
	}
	return string(t.Status)
}
