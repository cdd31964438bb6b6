package sheet

import (
	"fmt"
	"math"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/target"
)

// Sign rules: letter height as a share of the reading distance (common
// practice, found written: 1 inch of letter per 10 feet; never less than 1:200).
const (
	easyShare  = 1.0 / 120
	leastShare = 1.0 / 200
)

// readFrom is the distance the wall is read from, mm; 3 m where not said.
func (j Job) readFrom() float64 {
	if j.Wall.Read > 0 {
		return j.Wall.Read
	}
	return 3000
}

// setType chooses one size for all codes, one for all names and one for all
// numbers, so that the wall reads as one.
func (g *wallGrid) setType() error {
	w, h := min(g.cols[1], g.board.PitchX)-5, g.rows[1]
	tall := g.job.readFrom() * easyShare
	g.codeStyle = style{pt: tall / capHeight / mmPerPoint, bold: true}
	for _, glaze := range g.job.Wall.Glazes {
		if wide := g.width(g.codeStyle, clean(glaze.Code)); wide > w {
			g.codeStyle.pt *= w / wide
		}
	}
	if most := h * 0.38; g.codeStyle.capHeight() > most {
		g.codeStyle.pt *= most / g.codeStyle.capHeight()
	}
	tile := g.job.Wall.Settings.Tile
	g.numStyle = g.numberStyle(g.widest(g.job.Wall.Tiles), tile.Width*0.8, min(tile.Height*0.3, tall*1.1))
	g.nameStyle = style{pt: 14}
	for _, glaze := range g.job.Wall.Glazes {
		if _, err := g.headName(glaze); err != nil {
			return tiles.Problem{File: g.job.list(), Line: glaze.Line, What: fmt.Sprintf("the name of glaze %s %s", glaze.Code, err),
				Do: "shorten the name, or give photo: board: a larger pitch-x in wall.yaml"}
		}
	}
	return nil
}

// headName is a glaze's name set for the heads of rows and columns.
func (g *wallGrid) headName(glaze tiles.Glaze) (block, error) {
	room := g.rows[1] - 7 - g.codeStyle.capHeight() - g.codeGap() - 1.5
	return g.fit(clean(glaze.Name), g.nameStyle, min(g.cols[1], g.board.PitchX)-5, room, 8)
}

// codeGap keeps a name clear of the tail of a Q.
func (g *wallGrid) codeGap() float64 { return 1.5 + 0.2*g.codeStyle.mm() }

// sayHeights says when the heads cannot be read from where the wall is read.
func (g *wallGrid) sayHeights() {
	if g.codeStyle.capHeight() >= g.job.readFrom()*leastShare-0.01 {
		return
	}
	g.job.say(fmt.Sprintf("the grid's codes are %.0f mm tall: they read from %.1f m, not from %.1f m; a wider pitch-x of the board lets them grow",
		g.codeStyle.capHeight(), g.codeStyle.capHeight()/leastShare/1000, g.job.readFrom()/1000))
}

// pageAt draws one page of the wall. Paper x, y = page margin + wall x, y −
// where the page begins on the wall.
func (g *wallGrid) pageAt(row, col int) {
	g.page()
	rows, cols := g.down[row], g.across[col]
	dx, dy := gridSide-g.cols[cols.from], gridTop-g.rows[rows.from]
	g.gridHead(row, col)
	x2 := gridSide + g.cols[cols.to] - g.cols[cols.from]
	y2 := gridTop + g.rows[rows.to] - g.rows[rows.from]
	for r := rows.from; r < rows.to; r++ {
		for c := cols.from; c < cols.to; c++ {
			g.cell(r, c, area{g.cols[c] + dx, g.rows[r] + dy, g.cols[c+1] - g.cols[c], g.rows[r+1] - g.rows[r]})
		}
	}
	g.lattice(rows, cols, dx, dy)
	first := size{g.cols[cols.from+1] - g.cols[cols.from], g.rows[rows.from+1] - g.rows[rows.from]}
	more := edgesWithMore{left: col > 0, top: row > 0, right: col < len(g.across)-1, bottom: row < len(g.down)-1}
	g.marks(area{gridSide, gridTop, x2 - gridSide, y2 - gridTop}, first, more)
	g.gridFoot(row, col)
}

// lattice draws the lines between cells, on into the overlap, so that two
// pages can be laid on each other line on line.
func (g *wallGrid) lattice(rows, cols span, dx, dy float64) {
	d := g.path()
	left, right := g.cols[cols.from]+dx, g.cols[cols.to]+dx
	top, bottom := g.rows[rows.from]+dy, g.rows[rows.to]+dy
	if cols.to < len(g.cols)-1 {
		right += gridOverlap
	}
	if rows.to < len(g.rows)-1 {
		bottom += gridOverlap
	}
	for c := cols.from; c <= cols.to; c++ {
		d.move(g.cols[c]+dx, top)
		d.to(g.cols[c]+dx, bottom)
	}
	for r := rows.from; r <= rows.to; r++ {
		d.move(left, g.rows[r]+dy)
		d.to(right, g.rows[r]+dy)
	}
	g.stroke(d, thin)
}

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
	g.orderMarked(drawing, tiles.Pair{First: "a", Second: "b"}, g.job.Wall.Settings.Tile.Layout, small.heavy())
}

// columnHead names a column: its second glaze, or that there is none.
func (g *wallGrid) columnHead(a area, c column) {
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
		return string(t.Status) + ": " + clean(t.Reason)
	}
	return string(t.Status)
}

// pageName is a page's place on the wall: rows by letter, columns by number.
func pageName(row, col int) string {
	name := ""
	for r := row; ; r = r/26 - 1 {
		name = string(rune('A'+r%26)) + name
		if r < 26 {
			break
		}
	}
	return fmt.Sprintf("%s%d", name, col+1)
}

// edgesWithMore says at which edges another page follows.
type edgesWithMore struct{ left, top, right, bottom bool }

// marks draws what joins the pages: a cut line where this page lies on
// another, and at its ends crosses that fall on the crosses of the other.
func (g *wallGrid) marks(a area, first size, more edgesWithMore) {
	const arm = 4.0
	d := g.path()
	cross := func(x, y float64) {
		d.move(x-arm, y)
		d.to(x+arm, y)
		d.move(x, y-arm)
		d.to(x, y+arm)
	}
	for _, x := range []float64{a.x, a.x + a.w} {
		for _, y := range []float64{a.y, a.y + a.h} {
			cross(x, y)
		}
	}
	g.stroke(d, thick)
	tiny := small.at(7)
	// In the middle of the first cell, where no line between cells crosses them.
	midX, midY := a.x+first.w/2, a.y+first.h/2
	if more.left {
		g.sideways(a.x-1.6, midY, tiny, "cut here, lay on the page at the left")
	}
	if more.top {
		g.textMiddle(midX, a.y-1.6, tiny, "cut here, lay on the page above")
	}
	if more.right {
		g.sideways(a.x+a.w+6, midY, tiny, "the next page lies here, cross on cross")
	}
	if more.bottom {
		g.textMiddle(midX, a.y+a.h+6, tiny, "the page below lies here, cross on cross")
	}
}

// sideways prints a line that reads upward, centered on y.
func (p *paper) sideways(x, y float64, st style, s string) {
	p.pdf.TransformBegin()
	p.pdf.TransformRotate(90, x, y)
	p.textMiddle(x, y, st, s)
	p.pdf.TransformEnd()
}

// gridHead is the page's place on the wall, its purpose, and from how far its
// letters read.
func (g *wallGrid) gridHead(row, col int) {
	name := pageName(row, col)
	wide := g.text(gridSide, 8.5, head, name)
	last := pageName(len(g.down)-1, len(g.across)-1)
	g.text(gridSide+wide+3, 8.5, small, fmt.Sprintf("of A1 to %s. Wall grid at true scale: cut, join, hang every tile on its place.", last))
	tall := g.codeStyle.capHeight()
	g.textRight(g.w-gridSide, 8.5, small.at(7), fmt.Sprintf("Codes %.0f mm: easy from %.1f m, readable from %.1f m.", math.Floor(tall), tall/easyShare/1000, tall/leastShare/1000))
}

// gridFoot is the ruler, the page, whose wall it is.
func (g *wallGrid) gridFoot(row, col int) {
	g.ruler(gridSide, g.h-9.6)
	x, right := gridSide+106, g.w-gridSide
	g.text(x, g.h-13.6, small.heavy(), rulerWords)
	page, of := row*len(g.across)+col+1, len(g.down)*len(g.across)
	g.text(x, g.h-10.3, small.at(7), fmt.Sprintf("page %d of %d   %s", page, of, g.job.Date))
	g.setting(x, g.h-6.8, right-x, small.at(7), clean(g.job.Wall.Name), "name")
}
