package target

// overlaps says whether two rectangles share an area.
func (r Rect) overlaps(q Rect) bool {
	return r.X < q.X+q.W && q.X < r.X+r.W && r.Y < q.Y+q.H && q.Y < r.Y+r.H
}

// inside says whether r lies within q.
func (r Rect) inside(q Rect) bool {
	return r.X >= q.X && r.Y >= q.Y && r.X+r.W <= q.X+q.W && r.Y+r.H <= q.Y+q.H
}
