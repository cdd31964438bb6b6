package site

import (
	"fmt"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
)

// side is how many rows and columns one thumbnail sheet and one block of the
// wall have.
const side = 12

// WallView is the wall as it hangs: first glaze down the side, second along
// the top.
type WallView struct {
	Frame
	Counts  string
	Corner  Order
	Guesses []string // what the hatched places are; none or one
	Care    []string // what the mark in a cell means; none or one
	OnPaper string   // what stands on paper instead of a wall too wide for it
	Columns []Head
	Blocks  []Block
	Find    FindView
}

// Head is a heading of a row or column.
type Head struct {
	Nth   string
	Links []HeadLink // the glaze; none over single coats
	Plain string     // what stands there instead
}

// HeadLink is a glaze's name and page.
type HeadLink struct{ Href, Name string }

// head is a glaze's heading.
func head(nth string, g tiles.Glaze) Head {
	return Head{Nth: nth, Links: []HeadLink{{glazePath(g.Code), g.Name}}}
}

// Block is a dozen rows, drawn together and only when they come into view.
type Block struct {
	Atlases []Atlas
	Rows    []WallRow
}

// Atlas is a sheet of thumbnails that lies under a block's cells.
type Atlas struct {
	Src           string
	Width, Height int
	Loading       string // "eager" where a reader sees it first, else "lazy"
}

// WallRow is one first glaze.
type WallRow struct {
	Head  Head
	Cells []Cell
}

// Cell is one place on the wall: a link to its tile, or why there is none.
type Cell struct {
	Class string
	Links []CellLink // none or one
	Says  string
	Guess []GuessView // none or one
}

// CellLink is the tile's number.
type CellLink struct{ Href, Text string }

// wallPage makes index.html.
func (m *maker) wallPage() error {
	cols := m.columns()
	v := WallView{
		Frame:  m.frame("index.html", m.name(), "wall-page"+paperOf(len(cols)), m.findScripts()...),
		Counts: m.counts(),
		Corner: m.sample(), Guesses: m.legend(),
		Find: m.findForm(),
	}
	if len(cols) > mostOnPaper {
		v.OnPaper = fmt.Sprintf("A wall of %d columns is too wide for a page. On paper it is the wall grid, which twodip print grid makes.", len(cols))
	}
	for _, c := range cols {
		v.Columns = append(v.Columns, c.head)
	}
	matrix := m.matrix(cols)
	v.Care = careKey(matrix)
	for top := 0; top < len(matrix); top += side {
		v.Blocks = append(v.Blocks, m.block(cols, matrix, top))
	}
	if err := m.drawAtlases(v.Blocks, matrix); err != nil {
		return err
	}
	return m.page("index.html", "wall.html", v)
}

// mostOnPaper is how many columns can still be read on a sheet.
const mostOnPaper = 24

// paperOf is the class of how a wall of so many columns is printed from a
// browser: upright, or across and smaller, or not at all.
func paperOf(columns int) string {
	switch {
	case columns <= 12:
		return ""
	case columns <= mostOnPaper:
		return " wide"
	}
	return " widest"
}

// block makes the rows from top on.
func (m *maker) block(cols []wallColumn, matrix [][]*hung, top int) Block {
	var b Block
	for i, row := range matrix[top:min(top+side, len(matrix))] {
		g := m.glaze[top+i]
		r := WallRow{Head: head("1st", g)}
		for j, h := range row {
			r.Cells = append(r.Cells, m.cell(h, g.Code, cols[j]))
		}
		b.Rows = append(b.Rows, r)
	}
	return b
}

// cell says one place.
func (m *maker) cell(h *hung, first string, c wallColumn) Cell {
	if h == nil {
		p := tiles.Pair{First: first, Second: c.code}
		return Cell{Class: "empty", Says: m.skippedPair(p), Guess: m.guess(p)}.guessed()
	}
	cell := Cell{Class: "bare", Links: []CellLink{{h.Number.PagePath(), h.Number.String()}}}
	switch {
	case h.thumb.ok() && h.due != "":
		cell.Class, cell.Says = "shows due", "due again" // the tile's page says why
	case h.thumb.ok() && h.read && h.lab.L < deep:
		cell.Class = "shows deep"
	case h.thumb.ok():
		cell.Class = "shows"
	case h.due != "":
		cell.Says = h.state()
	default:
		cell.Says, cell.Guess = h.waiting(), m.guess(h.Pair)
	}
	if h.careful() {
		cell.Class += " care"
	}
	return cell.guessed()
}

// careKey says what the mark in a cell means, where there is one.
func careKey(matrix [][]*hung) []string {
	for _, row := range matrix {
		for _, h := range row {
			if h != nil && h.careful() {
				return []string{"with care: read on the tile’s page why, before you dip."}
			}
		}
	}
	return nil
}

// guessed marks a cell that shows a guess.
func (c Cell) guessed() Cell {
	if len(c.Guess) > 0 {
		c.Class += " guessed"
	}
	return c
}

// counts says what hangs: "144 tiles: 140 with a photo, 4 planned".
func (m *maker) counts() string {
	var pictured, planned, skipped int
	for _, h := range m.hung {
		switch {
		case h.photo.ok():
			pictured++
		case h.stage() == tiles.Skipped:
			skipped++
		case h.stage() == tiles.Planned:
			planned++
		}
	}
	said := []string{english.Count(len(m.glaze), "glaze", "glazes"), english.Count(len(m.hung), "tile", "tiles")}
	if pictured < len(m.hung) {
		said = append(said, english.Count(pictured, "with a photo", "with a photo"))
	}
	if planned > 0 {
		said = append(said, english.Count(planned, "planned", "planned"))
	}
	if skipped > 0 {
		said = append(said, english.Count(skipped, "skipped", "skipped"))
	}
	return strings.Join(said, ", ")
}
