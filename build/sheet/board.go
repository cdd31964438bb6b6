package sheet

import (
	"errors"
	"fmt"
	"io"

	"github.com/twodip/twodip/tiles/target"
)

// Board writes the eight marks that stand around the wall's board, at true
// size to cut out, and where they stand.
func Board(w io.Writer, job Job) (pages int, err error) {
	board, err := target.Board(job.Wall)
	if err != nil {
		return 0, err
	}
	if len(board.Places) == 0 {
		return 0, ErrNothing
	}
	s, err := newPinned(job, "Board marks", "Cut the eight marks out and glue them flat around the wall, for one photo of all tiles.", false)
	if err != nil {
		return 0, err
	}
	cells := boardCells(board)
	if len(cells) == 0 || cells[0].W > s.body().w/3 {
		return 0, errors.New("the board’s marks do not fit on the paper")
	}
	s.add(func(body area) { s.boardMarks(body, board) })
	s.add(func(body area) { s.boardPlan(body, board) })
	return s.bind(w)
}

// boardCells is each mark with the white it needs, as it is cut out.
func boardCells(b target.BoardLayout) []target.Rect {
	var cells []target.Rect
	for _, m := range b.Marks {
		cells = append(cells, m.Quiet())
	}
	return cells
}

// markNames says where each mark stands, in the order target gives them.
var markNames = []string{"top left", "top middle", "top right", "right middle", "bottom right", "bottom middle", "bottom left", "left middle"}

// boardMarks draws the marks three abreast, each with its cutting line and its
// place.
func (s *pinned) boardMarks(body area, b target.BoardLayout) {
	d := s.path()
	pitch := body.w / 3
	for i, m := range b.Marks {
		q := m.Quiet()
		x := body.x + float64(i%3)*pitch + (pitch-q.W)/2
		y := body.y + 3 + float64(i/3)*(q.H+10)
		s.pdf.SetDashPattern([]float64{1.5, 1.5}, 0)
		s.box(x, y, q.W, q.H, hair)
		s.pdf.SetDashPattern(nil, 0)
		s.textMiddle(x+q.W/2, y+q.H+4, text.heavy(), fmt.Sprintf("%d  %s", i+1, markNames[i]))
		s.mark(d, m, x-q.X, y-q.Y)
	}
	s.fill(d)
	y := body.y + 3 + 3*(b.Marks[0].Quiet().H+10) + 6
	y = s.bullet(body.x, y, body.w, text, "Cut on the dashed lines: the white edge belongs to the mark.")
	y = s.bullet(body.x, y, body.w, text, "Glue them flat, not bent, not shining; this page’s top is up on every one.")
	s.bullet(body.x, y, body.w, text, fmt.Sprintf("Each black square is %s. Measure one before you glue: if it is not, print again at 100 %%.", s.job.Wall.Units.Exactly().Length(b.Marks[0].W)))
	s.ruler(body.x, body.y+body.h-6)
	s.text(body.x+104, body.y+body.h-6, small.heavy(), rulerWords)
}

// boardPlan draws the board to scale with its marks, its tiles and the lengths
// to measure.
func (s *pinned) boardPlan(body area, b target.BoardLayout) {
	u := s.job.Wall.Units.Exactly()
	y := s.para(body.x, body.y+1, body.w, text, fmt.Sprintf(
		"The board is %s wide and %s high. Tiles hang %s apart across and %s down, from one tile’s left and top edge to the next one’s. Under each tile is its tag, which the wall grid prints. The grid’s heads, with the codes, fit between the marks and the tiles.",
		u.Length(b.Width), u.Length(b.Height), u.Length(b.PitchX), u.Length(b.PitchY)))
	room := area{body.x, y + 4, body.w, body.y + body.h - y - 46}
	k := min(room.w/b.Width, room.h/b.Height)
	x0, y0 := room.x+(room.w-k*b.Width)/2, room.y
	s.heads(x0, y0, k, b)
	s.box(x0, y0, k*b.Width, k*b.Height, 0.3)
	d := s.path()
	for _, p := range b.Places {
		d.rect(x0+k*p.Face.X, y0+k*p.Face.Y, k*p.Face.W, k*p.Face.H)
	}
	s.stroke(d, hair)
	black := s.path()
	for _, m := range b.Marks {
		black.rect(x0+k*m.X, y0+k*m.Y, k*m.W, k*m.H)
	}
	s.fill(black)
	s.markTable(area{body.x, y0 + k*b.Height + 5, body.w, 0}, b)
}

// heads draws where the grid's heads hang, between the marks and the tiles.
func (s *pinned) heads(x, y, k float64, b target.BoardLayout) {
	first, last := b.Places[0], b.Places[0]
	for _, p := range b.Places {
		if p.Row >= last.Row && p.Column >= last.Column {
			last = p
		}
	}
	beside := (b.PitchX - first.Face.W) / 2
	left, top := x+k*(first.Face.X-beside-float64(first.Column)*b.PitchX), y+k*(first.Face.Y-float64(first.Row)*b.PitchY)
	right, bottom := x+k*(last.Face.X+last.Face.W+beside), y+k*(last.Face.Y+last.Face.H)
	wide, tall := k*b.PitchX, k*min(b.PitchY, headTall)
	s.pdf.SetDashPattern([]float64{1.5, 1.5}, 0)
	s.box(left, top-tall, right-left, tall, hair)
	s.box(left-wide, top, wide, bottom-top, hair)
	s.pdf.SetDashPattern(nil, 0)
	if b, ok := s.onOneLine("heads of the grid: 2nd glazes →", small, right-left-2); ok && tall > 3 {
		s.textMiddle((left+right)/2, top-tall/2+b.capHeight()/2, b.style, b.lines[0])
	}
	if b, ok := s.onOneLine("← 1st glazes: heads of the grid", small, bottom-top-2); ok && wide > 3 {
		s.sideways(left-wide/2+b.capHeight()/2, (top+bottom)/2, b.style, b.lines[0])
	}
}

// markTable lists where each mark's black square begins, measured from the
// board's left and top edge.
func (s *pinned) markTable(a area, b target.BoardLayout) {
	s.text(a.x, a.y+2.5, small.heavy(), "From the board’s left and top edge to the black square, in millimetres")
	f := b.Places[0].Face
	s.textRight(a.x+a.w, a.y+2.5, small, fmt.Sprintf("upper left corner of tile %s: %s and %s", b.Places[0].Tile, inMM(f.X), inMM(f.Y)))
	for i, m := range b.Marks {
		x, y := a.x+float64(i/4)*a.w/2, a.y+8.5+float64(i%4)*5
		s.text(x, y, small, fmt.Sprintf("%d  %s", i+1, markNames[i]))
		s.textRight(x+50, y, small.heavy(), inMM(m.X))
		s.textRight(x+68, y, small.heavy(), inMM(m.Y))
	}
}
