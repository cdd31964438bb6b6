package plan

import (
	"math"

	"github.com/twodip/twodip/tiles"
)

// room is a shelf with what it can hold: rows of tiles that face the front,
// plain ones and ones on waste slabs. The rows are chosen by dynamic
// programming over the depth, so no other rows hold more. Every tile faces the
// front, so that a shelf map reads like the shelf.
type room struct {
	shelf       tiles.Shelf
	plain, slab footprint
	posts       []box
	step        float64 // the grid in mm on which rows may begin
	most        [][]int // [row start][slabs still to place] → most plain tiles; −1 = the slabs do not fit
}

// spot is one place on a shelf.
type spot struct {
	x, y float64 // the tile's centre
	slab bool
}

// newRoom works out what a shelf can hold; nobody asks for more than so many
// tiles on slabs.
func newRoom(s tiles.Settings, shelf tiles.Shelf, standing []Post, slabs int) *room {
	r := &room{shelf: shelf, plain: footprintOf(s, false), slab: footprintOf(s, true)}
	for _, p := range standing {
		r.posts = append(r.posts, around(p.X, p.Y, p.Side+s.Kiln.Gap, p.Side+s.Kiln.Gap))
	}
	for _, k := range keptOn(s, shelf) {
		r.posts = append(r.posts, around(k.X, k.Y, k.Width+s.Kiln.Gap, k.Depth+s.Kiln.Gap))
	}
	r.solve(slabs)
	return r
}

// holds is the most plain tiles that fit beside so many on slabs; −1 where
// the slabs alone are too many.
func (r *room) holds(slabs int) int {
	if slabs >= len(r.most[0]) {
		return -1
	}
	return r.most[0][slabs]
}

// solve fills most from the back of the shelf to the front.
func (r *room) solve(slabs int) {
	r.step = max(0.5, depthOf(r.shelf)/2000)
	rows := int(depthOf(r.shelf)/r.step) + 1
	width, depth := r.slab.outer()
	limit := 2 + min(slabs, int(r.shelf.Width*depthOf(r.shelf)/(width*depth)))
	r.most = make([][]int, rows+1)
	r.most[rows] = unreachable(limit)
	for y := rows - 1; y >= 0; y-- {
		r.most[y] = append([]int(nil), r.most[y+1]...)
		for _, row := range r.rowsAt(y) {
			r.improve(r.most[y], row)
		}
	}
}

// unreachable is the end of the shelf: nothing fits, and no slab is owed.
func unreachable(limit int) []int {
	m := make([]int, limit)
	for i := 1; i < limit; i++ {
		m[i] = -1
	}
	return m
}

// shelfRow is one way to begin a shelfRow: where the next may begin, and the stretches
// of x it may use.
type shelfRow struct {
	next      int
	depth     float64
	slabs     bool
	stretches [][2]float64
}

// rowsAt lists the rows that may begin at the grid step: one of plain tiles
// and one that may hold slabs.
func (r *room) rowsAt(y int) []shelfRow {
	var rows []shelfRow
	for _, slabs := range []bool{false, true} {
		f := r.plain
		if slabs {
			f = r.slab
		}
		_, depth := f.outer()
		next := y + int(math.Ceil(depth/r.step-1e-9))
		if next >= len(r.most) {
			continue
		}
		from := float64(y) * r.step
		if stretches := r.stretches(from, from+depth); len(stretches) > 0 {
			rows = append(rows, shelfRow{next: next, depth: depth, slabs: slabs, stretches: stretches})
		}
	}
	return rows
}

// improve raises what the shelf holds from a row's start by what the row adds.
func (r *room) improve(most []int, w shelfRow) {
	for owed := range most {
		placed, plain := 0, r.countPlain(w)
		if w.slabs {
			placed, plain = r.countMixed(w, owed)
		}
		rest := r.most[w.next][owed-placed]
		if rest >= 0 && rest+plain > most[owed] {
			most[owed] = rest + plain
		}
	}
}

func (r *room) countPlain(w shelfRow) int {
	width, _ := r.plain.outer()
	n := 0
	for _, s := range w.stretches {
		n += countIn(s[1]-s[0], width)
	}
	return n
}

// countMixed puts as many of the owed slabs as fit into the row and plain
// tiles into what is left of it.
func (r *room) countMixed(w shelfRow, owed int) (slabs, plain int) {
	wide, _ := r.slab.outer()
	narrow, _ := r.plain.outer()
	for _, s := range w.stretches {
		n := min(owed-slabs, countIn(s[1]-s[0], wide))
		slabs += n
		plain += countIn(s[1]-s[0]-float64(n)*wide, narrow)
	}
	return slabs, plain
}

func countIn(length, width float64) int { return int((length + 1e-6) / width) }

// stretches are the parts of a row that lie on the shelf and clear of posts.
func (r *room) stretches(y0, y1 float64) [][2]float64 {
	lo, hi, ok := span(r.shelf, y0, y1)
	if !ok {
		return nil
	}
	free := [][2]float64{{lo, hi}}
	for _, p := range r.posts {
		if p.y0 >= y1 || p.y1 <= y0 {
			continue
		}
		var cut [][2]float64
		for _, f := range free {
			if p.x1 <= f[0] || p.x0 >= f[1] {
				cut = append(cut, f)
				continue
			}
			if p.x0 > f[0] {
				cut = append(cut, [2]float64{f[0], p.x0})
			}
			if p.x1 < f[1] {
				cut = append(cut, [2]float64{p.x1, f[1]})
			}
		}
		free = cut
	}
	return free
}

// spots lays the shelf out for so many tiles on slabs and as many plain ones
// as then fit. Rows and the tiles in them are spread over the room left.
func (r *room) spots(slabs int) []spot {
	var out []spot
	for y := 0; y < len(r.most)-1; {
		w, ok := r.taken(y, slabs)
		if !ok {
			y++
			continue
		}
		line := r.lay(w, float64(y)*r.step, slabs)
		for _, s := range line {
			if s.slab {
				slabs--
			}
		}
		out = append(out, line...)
		y = w.next
	}
	return out
}

// taken is the row that the best layout begins at the grid step, if any.
func (r *room) taken(y, owed int) (shelfRow, bool) {
	if r.most[y][owed] == r.most[y+1][owed] {
		return shelfRow{}, false
	}
	for _, w := range r.rowsAt(y) {
		placed, plain := 0, r.countPlain(w)
		if w.slabs {
			placed, plain = r.countMixed(w, owed)
		}
		if rest := r.most[w.next][owed-placed]; rest >= 0 && rest+plain == r.most[y][owed] {
			return w, true
		}
	}
	return shelfRow{}, false
}

// lay gives the tiles of a row their places, evenly over each stretch.
func (r *room) lay(w shelfRow, from float64, owed int) []spot {
	wide, _ := r.slab.outer()
	narrow, _ := r.plain.outer()
	y := from + w.depth/2
	var out []spot
	for _, s := range w.stretches {
		slabs := 0
		if w.slabs {
			slabs = min(owed, countIn(s[1]-s[0], wide))
			owed -= slabs
		}
		plain := countIn(s[1]-s[0]-float64(slabs)*wide, narrow)
		if slabs+plain == 0 {
			continue
		}
		air := (s[1] - s[0] - float64(slabs)*wide - float64(plain)*narrow) / float64(slabs+plain)
		x := s[0] + air/2
		for i := range slabs + plain {
			width := narrow
			if i < slabs {
				width = wide
			}
			out = append(out, spot{x: tenth(x + width/2), y: tenth(y), slab: i < slabs})
			x += width + air
		}
	}
	return out
}

func tenth(mm float64) float64 { return math.Round(mm*10) / 10 }
