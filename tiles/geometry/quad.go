package geometry

import (
	"image"
	"math"
)

// Quad is a four-sided area: top left, top right, bottom right, bottom left of
// what lies in it when that is held upright, so clockwise as seen.
type Quad [4]Point

// Box is the upright rectangle from (x0, y0) to (x1, y1).
func Box(x0, y0, x1, y1 float64) Quad {
	return Quad{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// Bounds is the smallest rectangle of whole pixels around the quad.
func (q Quad) Bounds() image.Rectangle {
	x0, y0, x1, y1 := q[0].X, q[0].Y, q[0].X, q[0].Y
	for _, p := range q[1:] {
		x0, y0 = min(x0, p.X), min(y0, p.Y)
		x1, y1 = max(x1, p.X), max(y1, p.Y)
	}
	const most = 1 << 20 // keeps what a hand typed within what an int holds
	whole := func(v float64) int { return int(max(-most, min(most, v))) }
	return image.Rect(whole(math.Floor(x0)), whole(math.Floor(y0)), whole(math.Ceil(x1)), whole(math.Ceil(y1)))
}

// Convex says that the corners go round once, clockwise as seen, and enclose
// something.
func (q Quad) Convex() bool {
	for i := range q {
		a, b, c := q[i], q[(i+1)%4], q[(i+2)%4]
		if !(b.Minus(a).Cross(c.Minus(b)) > 0) {
			return false
		}
	}
	return true
}

// Area is the area of the quad in square pixels, positive where the corners
// run clockwise.
func (q Quad) Area() float64 {
	return (q[2].Minus(q[0]).Cross(q[3].Minus(q[1]))) / 2
}

// Shortest is the length of the shortest side.
func (q Quad) Shortest() float64 {
	least := math.Inf(1)
	for i := range q {
		least = min(least, q[i].Distance(q[(i+1)%4]))
	}
	return least
}

// Size is the mean length of the quad across and down, in pixels.
func (q Quad) Size() (across, down float64) {
	return (q[0].Distance(q[1]) + q[3].Distance(q[2])) / 2, (q[0].Distance(q[3]) + q[1].Distance(q[2])) / 2
}

// Scaled is the quad in a picture of s times the size.
func (q Quad) Scaled(s float64) Quad {
	for i := range q {
		q[i] = q[i].Times(s)
	}
	return q
}

// Turned is the same area with another corner for its top left.
func (q Quad) Turned(quarters int) (out Quad) {
	for i := range q {
		out[i] = q[(i+quarters)%4]
	}
	return out
}

// Part is the part of the quad between two places across (0–1 from the left)
// and two down (0–1 from the top), in perspective.
func (q Quad) Part(u0, v0, u1, v1 float64) Quad {
	m := q.Projection()
	out := Box(u0, v0, u1, v1)
	for i := range out {
		out[i] = m.To(out[i])
	}
	return out
}

// Cut cuts the quad into about square cells of side pixels.
func (q Quad) Cut(side float64) []Quad {
	across, down := q.Size()
	nx, ny := max(1, math.Round(across/side)), max(1, math.Round(down/side))
	var out []Quad
	for i := range int(nx) {
		for j := range int(ny) {
			u, v := float64(i), float64(j)
			out = append(out, q.Part(u/nx, v/ny, (u+1)/nx, (v+1)/ny))
		}
	}
	return out
}
