package sheet

import (
	"fmt"
	"sort"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
)

// pieces lists the students' pieces that wait for a load, to tick as they are
// put in, and those that must not go in as they are.
func (s *pinned) pieces(f *flow) {
	by := map[string][]tiles.Piece{}
	for _, p := range s.job.Pieces {
		by[p.Load] = append(by[p.Load], p)
	}
	loads := make([]string, 0, len(by))
	for l := range by {
		loads = append(loads, l)
	}
	sort.Slice(loads, func(i, j int) bool {
		if len(loads[i]) != len(loads[j]) {
			return len(loads[i]) < len(loads[j]) // 9 before 10
		}
		return loads[i] < loads[j]
	})
	for _, l := range loads {
		title := "Pieces for load " + l
		if l == "" {
			title = "Pieces without a load yet"
		}
		f.heading(title, pieceRow)
		for _, p := range by[l] {
			f.add(pieceRow, 0, func(a area) { s.pieceToLoad(a, p) })
		}
	}
	s.held(f)
}

const pieceRow = 6.5

// pieceToLoad is one row: a box, the piece, its glazes in order, its shelf.
func (s *pinned) pieceToLoad(a area, p tiles.Piece) {
	y := a.y + 4.5
	s.tick(a.x, y, text)
	s.inLine(a.x+5, y, 22, text.heavy(), clean(pieceName(p)))
	said := clean(s.job.Wall.Say(p.Pair))
	if _, ok := s.onOneLine(said, text, a.w-62); !ok {
		said = clean(p.Pair.String()) // codes rather than a name cut short
	}
	s.inLine(a.x+30, y, a.w-62, text, said)
	shelf := "shelf ______"
	if p.Shelf != "" {
		shelf = "shelf " + clean(p.Shelf)
	}
	s.inLine(a.x+a.w-28, y, 28, text, shelf)
	s.line(a.x, a.y+pieceRow-0.4, a.x+a.w, a.y+pieceRow-0.4, hair)
}

func pieceName(p tiles.Piece) string {
	if p.ID != "" {
		return p.ID
	}
	return fmt.Sprintf("line %d", p.Line)
}

// held lists what stays out of the kiln, and why.
func (s *pinned) held(f *flow) {
	if len(s.job.Held) == 0 {
		return
	}
	f.heading("Not to be loaded as they are", 12)
	for _, h := range s.job.Held {
		f.words(text.heavy(), 0, 0.4, english.Capital(h.Say()))
		for _, why := range h.Reasons {
			f.words(text, 5, 0.4, english.Sentence(why))
		}
		f.words(small, 0, 0.6, " ")
	}
}
