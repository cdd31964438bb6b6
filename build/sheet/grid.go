package sheet

import (
	"fmt"
	"io"
	"math"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/target"
)

// Grid writes the wall at true scale, over as many pages as it takes: the
// first glaze down the side, the second along the top, every tile's place
// outlined with its number. Pages hold whole cells and overlap by 10 mm.
func Grid(w io.Writer, job Job) (pages int, err error) {
	g, err := newGrid(job)
	if err != nil {
		return 0, err
	}
	g.lang = job.Wall.Language
	for row := range g.down {
		for col := range g.across {
			if !g.wanted(row, col) {
				continue
			}
			if err := g.pageAt(row, col); err != nil {
				return 0, err
			}
		}
	}
	if g.pdf.PageCount() == 0 {
		return 0, ErrNothing
	}
	g.sayHeights()
	return g.write(w)
}

// The page around the wall: what printers leave white, the line of purpose
// above, the ruler below. Paper over the wall's edge is cut off.
const (
	gridSide    = 9.0
	gridTop     = 13.3
	gridFoot    = 16.0
	gridOverlap = 10.0
)

// wallGrid is the wall laid out and cut into pages. Rows and columns count
// from 1; 0 is the row or column of heads.
type wallGrid struct {
	*paper
	board        target.BoardLayout
	places       map[cellKey]target.Place
	columns      []gridColumn
	cols, rows   []float64 // where columns and rows begin, mm on the wall, the heads first; one more than there are
	across, down []span    // the pages: which columns, which rows
	codeStyle    style
	nameStyle    style
	numStyle     style
}

type cellKey struct{ row, col int }

// gridColumn is what stands in the head of a gridColumn: a second glaze, or one coat.
type gridColumn struct {
	alone bool
	glaze tiles.Glaze
}

// span is a run of columns or rows: from, and up to but not including, to.
type span struct{ from, to int }

func newGrid(job Job) (*wallGrid, error) {
	board, err := target.Board(job.Wall)
	if err != nil {
		return nil, err
	}
	if len(board.Places) == 0 {
		return nil, ErrNothing
	}
	s, err := paperOf(job.Wall.Paper)
	if err != nil {
		return nil, err
	}
	g := &wallGrid{board: board}
	rows, cols := g.layOut(job.Wall)
	best, err := g.cutFor(s, rows, cols)
	if err != nil {
		return nil, err
	}
	if g.paper, err = newPaper(job, best, "Wall grid"); err != nil {
		return nil, err
	}
	return g, g.setType()
}

// cutFor cuts the wall into pages of a paper, the way round that needs fewer.
func (g *wallGrid) cutFor(s size, rows, cols int) (size, error) {
	flat := *g
	err, errFlat := g.cut(s, rows, cols), flat.cut(s.turned(), rows, cols)
	if errFlat == nil && (err != nil || len(flat.across)*len(flat.down) < len(g.across)*len(g.down)) {
		*g = flat
		return s.turned(), nil
	}
	return s, err
}

// cut places the columns and rows, and cuts them into pages.
func (g *wallGrid) cut(s size, rows, cols int) (err error) {
	room := gridRoom(s)
	g.cols = edges(g.board.PitchX, g.board.PitchX, cols)
	g.rows = edges(min(g.board.PitchY, headTall), g.board.PitchY, rows)
	shrinkHead(g.cols, g.board.PitchX, room.w)
	shrinkHead(g.rows, g.board.PitchY, room.h)
	if g.across, err = pagesOf(g.cols, room.w, "wide", s); err != nil {
		return err
	}
	g.down, err = pagesOf(g.rows, room.h, "tall", s)
	return err
}

// layOut gives every place its cell, and says how many rows and columns there
// are.
func (g *wallGrid) layOut(w tiles.Wall) (rows, cols int) {
	g.places = map[cellKey]target.Place{}
	for _, p := range g.board.Places {
		g.places[cellKey{p.Row + 1, p.Column + 1}] = p
		rows, cols = max(rows, p.Row+1), max(cols, p.Column+1)
		if t, _ := w.Tile(p.Tile); t.Single() && p.Column != p.Row && len(g.columns) == 0 {
			g.columns = append(g.columns, gridColumn{alone: true})
		}
	}
	for _, glaze := range w.Glazes {
		g.columns = append(g.columns, gridColumn{glaze: glaze})
	}
	return rows, cols
}

// The heads of the columns are no taller than they need, and heads shrink
// where that puts another row or column on the first page.
const headTall, headLeast = 60.0, 42.0

// shrinkHead takes from the head of a run of cells what one more cell on the
// first page needs, if the head can spare it.
func shrinkHead(edges []float64, cell, room float64) {
	rest := math.Mod(room, cell)
	if high := edges[1]; rest < high && rest >= headLeast {
		for i := range edges[1:] {
			edges[i+1] += rest - high
		}
	}
}

// gridRoom is how much of the wall a page can hold, its overlap not counted.
func gridRoom(s size) size {
	return size{s.w - 2*gridSide - gridOverlap, s.h - gridTop - gridFoot - gridOverlap}
}

// edges lists where a head of one length and n cells of another begin and end.
func edges(head, cell float64, n int) []float64 {
	at := []float64{0, head}
	for range n {
		at = append(at, at[len(at)-1]+cell)
	}
	return at
}

// pagesOf cuts a run of cells into pages that cut no cell.
func pagesOf(edges []float64, room float64, what string, s size) ([]span, error) {
	var spans []span
	for from := 0; from < len(edges)-1; {
		to := from + 1
		if edges[to]-edges[from] > room {
			return nil, tiles.Problem{File: "wall.yaml",
				What: fmt.Sprintf("a place on the wall grid is %s mm %s, but a page of %s × %s mm has room for %s", inMM(edges[to]-edges[from]), what, inMM(s.w), inMM(s.h), inMM(room)),
				Do:   "check tile and photo: board: in it, or print on larger paper"}
		}
		for to < len(edges)-1 && edges[to+1]-edges[from] <= room {
			to++
		}
		spans = append(spans, span{from, to})
		from = to
	}
	return spans, nil
}

// wanted says whether a page shows anything new, or all is wanted.
func (g *wallGrid) wanted(row, col int) bool {
	if g.job.New == nil {
		return true
	}
	for r := g.down[row].from; r < g.down[row].to; r++ {
		for c := g.across[col].from; c < g.across[col].to; c++ {
			if p, ok := g.places[cellKey{r, c}]; ok && g.job.New[p.Tile] {
				return true
			}
		}
	}
	return false
}

// pair is what would hang in a cell.
func (g *wallGrid) pair(row, col int) tiles.Pair {
	first, column := g.job.Wall.Glazes[row-1].Code, g.columns[col-1]
	pair := tiles.Pair{First: first, Second: column.glaze.Code}
	if column.alone || (pair.Double() && !g.columns[0].alone && g.job.Wall.Diagonal != tiles.DiagonalDouble) {
		pair.Second = ""
	}
	return pair
}
