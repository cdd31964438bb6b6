package sheet

import (
	"fmt"
	"math"

	"github.com/twodip/twodip/tiles"
)

// pageAt draws one page of the wall. Paper x, y = page margin + wall x, y −
// where the page begins on the wall.
func (g *wallGrid) pageAt(row, col int) error {
	if err := g.page(); err != nil {
		return err
	}
	rows, cols := g.down[row], g.across[col]
	dx, dy := gridSide-g.cols[cols.from], gridTop-g.rows[rows.from]
	g.gridHead(row, col)
	g.bookmark(0, "Page "+pageName(row, col)+g.tilesOf(rows, cols))
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
	return nil
}

// tilesOf says which tiles hang on a page, for finding it.
func (g *wallGrid) tilesOf(rows, cols span) string {
	least, most := tiles.MaxNumber+1, tiles.Number(0)
	for r := rows.from; r < rows.to; r++ {
		for c := cols.from; c < cols.to; c++ {
			if p, ok := g.places[cellKey{r, c}]; ok && p.Tile > 0 {
				least, most = min(least, p.Tile), max(most, p.Tile)
			}
		}
	}
	if most == 0 {
		return ""
	}
	return fmt.Sprintf(", tiles between %d and %d", least, most)
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
