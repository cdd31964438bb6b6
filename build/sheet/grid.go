package sheet

import (
	"fmt"
	"io"

	"github.com/twodip/twodip/tiles"
)

// Grid writes the wall at true scale, over as many pages as it takes: the
// first glaze down the side, the second along the top, every tile's place
// outlined with its number. Pages hold whole cells and overlap by 10 mm.
func Grid(w io.Writer, job Job) error {
	g, err := newGrid(job)
	if err != nil {
		return err
	}
	g.lang = job.Wall.Language
	printed := 0
	for row := range g.down {
		for col := range g.across {
			if g.wanted(row, col) {
				g.pageAt(row, col)
				printed++
			}
		}
	}
	if printed == 0 {
		return ErrNothing
	}
	g.sayHeights()
	return g.write(w)
}

// The page around the wall: what printers leave white, the line of purpose
// above, the ruler below. Paper over the wall's edge is cut off.
const (
	gridSide    = 9.0
	gridTop     = 17.0
	gridFoot    = 25.0
	gridOverlap = 10.0
)

// wallGrid is the wall laid out and cut into pages.
type wallGrid struct {
	*paper
	firsts, seconds []tiles.Glaze
	cols, rows      []float64 // left edges of columns and top edges of rows, the heads first; one more than there are
	across, down    []span    // the pages: which columns, which rows
	codeStyle       style
	nameStyle       style
	numStyle        style
}

// span is a run of columns or rows: from, and up to but not including, to.
type span struct{ from, to int }

func newGrid(job Job) (*wallGrid, error) {
	shown := hanging(job.Wall)
	if len(shown) == 0 {
		return nil, ErrNothing
	}
	s, err := paperOf(job.Wall.Paper)
	if err != nil {
		return nil, err
	}
	pitchX, pitchY := pitch(job.Wall.Settings)
	best := turned(s, pitchX, pitchY, len(shown))
	p, err := newPaper(job, best, "Wall grid")
	if err != nil {
		return nil, err
	}
	g := &wallGrid{paper: p, firsts: shown, seconds: shown}
	g.cols = edges(pitchX, pitchX, len(shown))
	g.rows = edges(min(pitchY, 60), pitchY, len(shown))
	if g.across, err = pages(g.cols, best.w-2*gridSide-gridOverlap, "wide", s); err != nil {
		return nil, err
	}
	if g.down, err = pages(g.rows, best.h-gridTop-gridFoot-gridOverlap, "tall", s); err != nil {
		return nil, err
	}
	return g, g.setType()
}

// hanging lists the glazes of the wall's rows and columns: those in use, and
// those retired whose tiles still hang.
func hanging(w tiles.Wall) []tiles.Glaze {
	seen := map[string]bool{}
	for _, t := range w.Tiles {
		if t.Own() && t.Status != tiles.Retired {
			seen[lower(t.First)], seen[lower(t.Second)] = true, true
		}
	}
	var shown []tiles.Glaze
	for _, g := range w.Glazes {
		if !g.Retired || seen[lower(g.Code)] {
			shown = append(shown, g)
		}
	}
	return shown
}

// pitch is the distance from one tile's left edge and from its top edge to the
// next one's: the board's, or the tile's size and 10 mm.
func pitch(s tiles.Settings) (x, y float64) {
	x, y = s.Photo.Board.PitchX, s.Photo.Board.PitchY
	if x < s.Tile.Width {
		x = s.Tile.Width + 10
	}
	if y < s.Tile.Height {
		y = s.Tile.Height + 10
	}
	return x, y
}

// turned picks the way round of the paper that needs fewer pages.
func turned(s size, pitchX, pitchY float64, n int) size {
	count := func(s size) int {
		across := int((s.w - 2*gridSide - gridOverlap) / pitchX)
		down := int((s.h - gridTop - gridFoot - gridOverlap) / pitchY)
		if across < 1 || down < 1 {
			return 1 << 30
		}
		return ((n + across) / across) * ((n + down) / down)
	}
	if count(s.turned()) < count(s) {
		return s.turned()
	}
	return s
}

// edges lists where a head of one length and n cells of another begin and end.
func edges(head, cell float64, n int) []float64 {
	at := []float64{0, head}
	for range n {
		at = append(at, at[len(at)-1]+cell)
	}
	return at
}

// pages cuts a run of cells into pages that cut no cell.
func pages(edges []float64, room float64, what string, s size) ([]span, error) {
	var spans []span
	for from := 0; from < len(edges)-1; {
		to := from + 1
		if edges[to]-edges[from] > room {
			return nil, tiles.Problem{File: "wall.yaml",
				What: fmt.Sprintf("a place on the wall grid is %s mm %s, but a page of %s × %s mm has room for %s", mm(edges[to]-edges[from]), what, mm(s.w), mm(s.h), mm(room)),
				Do:   "check tile and photo.board"}
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
	for r := max(g.down[row].from, 1); r < g.down[row].to; r++ {
		for c := max(g.across[col].from, 1); c < g.across[col].to; c++ {
			for _, t := range g.at(r, c) {
				if g.job.New[t.Number] {
					return true
				}
			}
		}
	}
	return false
}

// at is the wall's own tiles of a row and a column, 1 and up: one, or on the
// diagonal a single and a double.
func (g *wallGrid) at(row, col int) []tiles.Tile {
	first, second := g.firsts[row-1].Code, g.seconds[col-1].Code
	var at []tiles.Tile
	if tiles.SameCode(first, second) {
		if t, ok := g.job.Wall.Own(tiles.Pair{First: first}); ok {
			at = append(at, t)
		}
	}
	if t, ok := g.job.Wall.Own(tiles.Pair{First: first, Second: second}); ok {
		at = append(at, t)
	}
	return at
}
