package measure

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"github.com/twodip/twodip/tiles/geometry"
)

// Bounds on what is taken for a chart.
const (
	chartSize    = 480  // longer side of the picture it is looked for in, pixels
	leastLattice = 0.55 // of the patches that must be seen as such
	mostWindows  = 24   // places tried for one lattice
)

// findGrids looks for a chart: flat patches of one size that stand in rows and
// columns. What it gives are guesses, which tryChart believes or not.
func (s *chartSearch) findGrids() []geometry.Quad {
	part := s.photo.Image.Bounds()
	if s.place != nil {
		part = s.place.Bounds().Intersect(part)
	}
	if part.Empty() {
		return nil
	}
	small := s.photo.Small(part, chartSize)
	spots := flatSpots(small)
	scale := float64(part.Dx()) / float64(small.Rect.Dx())
	var out []geometry.Quad
	for _, g := range gridsOf(s.patches) {
		if g.rows == 1 || g.columns == 1 {
			continue // a strip is told by hand: two rows of spots are found anywhere
		}
		for _, q := range lattices(spots, g) {
			for i := range q {
				q[i] = geometry.Point{X: q[i].X*scale + float64(part.Min.X), Y: q[i].Y*scale + float64(part.Min.Y)}
			}
			out = append(out, q)
		}
	}
	return out
}

// cell is a spot's place in a lattice.
type cell struct{ column, row int }

// lattices puts spots of one size into rows and columns, as far as they reach,
// and gives every window of the grid's size that holds them.
func lattices(spots []spot, g grid) []geometry.Quad {
	slices.SortFunc(spots, func(a, b spot) int { return cmp.Compare(b.side, a.side) })
	used := make([]bool, len(spots))
	var out []geometry.Quad
	for i := range spots {
		if used[i] {
			continue
		}
		cells := growLattice(spots, i)
		for j := range cells {
			used[j] = true
		}
		out = append(out, windows(spots, cells, g)...)
		out = append(out, windows(spots, cells, grid{g.columns, g.rows})...)
		if len(out) > mostWindows {
			break
		}
	}
	return out
}

// growLattice walks from one spot to its neighbors of like size, keeping count
// of steps right and down. Each step may differ a little from the one before,
// as perspective makes it.
func growLattice(spots []spot, start int) map[int]cell {
	right, down, ok := firstSteps(spots, start)
	cells := map[int]cell{start: {}}
	if !ok {
		return cells
	}
	taken := map[cell]bool{{}: true}
	queue := []int{start}
	for len(queue) > 0 {
		i := queue[0]
		queue = queue[1:]
		for _, step := range []struct {
			move geometry.Point
			to   cell
		}{
			{right, cell{1, 0}}, {geometry.Point{X: -right.X, Y: -right.Y}, cell{-1, 0}},
			{down, cell{0, 1}}, {geometry.Point{X: -down.X, Y: -down.Y}, cell{0, -1}},
		} {
			to := cell{cells[i].column + step.to.column, cells[i].row + step.to.row}
			if taken[to] {
				continue
			}
			if j := nearest(spots, i, step.move); j >= 0 {
				if _, seen := cells[j]; !seen {
					cells[j], taken[to] = to, true
					queue = append(queue, j)
				}
			}
		}
	}
	return cells
}

// alike says that two spots are of one size.
func alike(a, b spot) bool { return max(a.side, b.side) < 1.45*min(a.side, b.side) }

// nearest is the spot of like size nearest to where the step leads; −1 = none.
func nearest(spots []spot, from int, step geometry.Point) int {
	reach := 0.3 * math.Hypot(step.X, step.Y)
	best := -1
	for j, s := range spots {
		d := math.Hypot(s.center.X-spots[from].center.X-step.X, s.center.Y-spots[from].center.Y-step.Y)
		if j != from && d < reach && alike(s, spots[from]) {
			reach, best = d, j
		}
	}
	return best
}

// firstSteps is the way from a spot to its nearest neighbor of like size, and
// the way to the nearest one across that.
func firstSteps(spots []spot, start int) (right, down geometry.Point, ok bool) {
	c := spots[start]
	ways := make([]geometry.Point, 0, len(spots))
	for j, s := range spots {
		way := geometry.Point{X: s.center.X - c.center.X, Y: s.center.Y - c.center.Y}
		if d := math.Hypot(way.X, way.Y); j != start && alike(s, c) && d < 2.2*c.side+4 {
			ways = append(ways, way)
		}
	}
	slices.SortFunc(ways, func(a, b geometry.Point) int { return cmp.Compare(math.Hypot(a.X, a.Y), math.Hypot(b.X, b.Y)) })
	if len(ways) < 2 {
		return right, down, false
	}
	first := ways[0]
	for _, way := range ways[1:] {
		cross := first.X*way.Y - first.Y*way.X
		if math.Abs(cross) < 0.85*math.Hypot(first.X, first.Y)*math.Hypot(way.X, way.Y) {
			continue
		}
		if math.Abs(first.X) < math.Abs(first.Y) {
			first, way, cross = way, first, -cross
		}
		if first.X < 0 {
			first, cross = geometry.Point{X: -first.X, Y: -first.Y}, -cross
		}
		if cross < 0 {
			way = geometry.Point{X: -way.X, Y: -way.Y}
		}
		return first, way, true
	}
	return right, down, false
}

// windows gives the outlines of every window of the grid's size that holds all
// the cells, or, where they reach further than the grid, that most of them fill.
func windows(spots []spot, cells map[int]cell, g grid) []geometry.Quad {
	if float64(len(cells)) < leastLattice*float64(g.rows*g.columns) {
		return nil
	}
	m, ok := fitProjection(spots, cells)
	if !ok {
		return nil
	}
	c0, r0, c1, r1 := extent(cells)
	var out []geometry.Quad
	for row := min(r0, r1-g.rows+1); row <= max(r0, r1-g.rows+1); row++ {
		for column := min(c0, c1-g.columns+1); column <= max(c0, c1-g.columns+1); column++ {
			if filled(cells, row, column, g) < leastLattice || len(out) >= mostWindows {
				continue
			}
			q := geometry.Box(float64(column)-0.5, float64(row)-0.5, float64(column+g.columns)-0.5, float64(row+g.rows)-0.5)
			for i := range q {
				q[i] = m.To(q[i])
			}
			if q.Convex() {
				out = append(out, q)
			}
		}
	}
	return out
}

func extent(cells map[int]cell) (c0, r0, c1, r1 int) {
	first := true
	for _, c := range cells {
		if first {
			c0, r0, c1, r1, first = c.column, c.row, c.column, c.row, false
		}
		c0, c1, r0, r1 = min(c0, c.column), max(c1, c.column), min(r0, c.row), max(r1, c.row)
	}
	return c0, r0, c1, r1
}

// filled is the share of a window in which a spot was seen.
func filled(cells map[int]cell, row, column int, g grid) float64 {
	n := 0
	for _, c := range cells {
		if c.row >= row && c.row < row+g.rows && c.column >= column && c.column < column+g.columns {
			n++
		}
	}
	return float64(n) / float64(g.rows*g.columns)
}

// fitProjection is the projection that takes cells to the centers of their
// spots, by least squares on the linear equations (Hartley and Zisserman,
// Multiple View Geometry, 2nd ed., 4.1, with the last element 1).
func fitProjection(spots []spot, cells map[int]cell) (m geometry.Projection, ok bool) {
	a := mat.NewDense(2*len(cells), 8, nil)
	b := mat.NewVecDense(2*len(cells), nil)
	i := 0
	for j := range spots {
		c, in := cells[j]
		if !in {
			continue
		}
		u, v, x, y := float64(c.column), float64(c.row), spots[j].center.X, spots[j].center.Y
		a.SetRow(i, []float64{u, v, 1, 0, 0, 0, -u * x, -v * x})
		a.SetRow(i+1, []float64{0, 0, 0, u, v, 1, -u * y, -v * y})
		b.SetVec(i, x)
		b.SetVec(i+1, y)
		i += 2
	}
	var h mat.VecDense
	if err := h.SolveVec(a, b); err != nil {
		return m, false
	}
	return geometry.Projection{
		h.AtVec(0), h.AtVec(1), h.AtVec(2),
		h.AtVec(3), h.AtVec(4), h.AtVec(5),
		h.AtVec(6), h.AtVec(7), 1,
	}, true
}
