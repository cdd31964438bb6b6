package target

// Rect is an upright rectangle: its top left corner and its size.
type Rect struct{ X, Y, W, H float64 }

// Corners runs from the top left clockwise.
func (r Rect) Corners() [4][2]float64 {
	return [4][2]float64{
		{r.X, r.Y}, {r.X + r.W, r.Y}, {r.X + r.W, r.Y + r.H}, {r.X, r.Y + r.H},
	}
}

// Grow moves every side out by d, or in where d is negative.
func (r Rect) Grow(d float64) Rect {
	return Rect{X: r.X - d, Y: r.Y - d, W: r.W + 2*d, H: r.H + 2*d}
}

// Mark is one square mark: the code and where its black square stands. Around
// the square at least one cell (an eighth of its side) stays white.
type Mark struct {
	ID   int // 0 to Count-1; -1 on a tile's tag
	Bits Bits
	Rect
}

// Cell is the side of one of the mark's 8 × 8 cells.
func (m Mark) Cell() float64 { return m.W / Cells }

// Quiet is the mark with the white it needs around it.
func (m Mark) Quiet() Rect { return m.Grow(m.Cell()) }

func mark(id int, x, y, size float64) Mark {
	return Mark{ID: id, Bits: Code(id), Rect: Rect{X: x, Y: y, W: size, H: size}}
}
