package measure

import (
	"image"
	"math"

	"github.com/twodip/twodip/tiles/color"
)

// Point is a place in a photo, in upright pixels; (0, 0) is the corner of the
// first pixel, (0.5, 0.5) its middle.
type Point struct{ X, Y float64 }

// Quad is a four-sided area: top left, top right, bottom right, bottom left of
// what lies in it when that is held upright.
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

// convex says that the corners go round once, clockwise on the screen, and
// enclose something.
func (q Quad) convex() bool {
	for i := range q {
		a, b, c := q[i], q[(i+1)%4], q[(i+2)%4]
		if !((b.X-a.X)*(c.Y-b.Y)-(b.Y-a.Y)*(c.X-b.X) > 0) {
			return false
		}
	}
	return true
}

// projection maps the unit square (u to the right, v down) onto a quad, as a
// camera does a flat face. Source: Heckbert, Fundamentals of Texture Mapping
// and Image Warping (1989), 2.2.3.
func (q Quad) projection() color.Matrix {
	dx1, dx2 := q[1].X-q[2].X, q[3].X-q[2].X
	dy1, dy2 := q[1].Y-q[2].Y, q[3].Y-q[2].Y
	sx, sy := q[0].X-q[1].X+q[2].X-q[3].X, q[0].Y-q[1].Y+q[2].Y-q[3].Y
	det := dx1*dy2 - dx2*dy1
	g, h := (sx*dy2-dx2*sy)/det, (dx1*sy-sx*dy1)/det
	return color.Matrix{
		{q[1].X - q[0].X + g*q[1].X, q[3].X - q[0].X + h*q[3].X, q[0].X},
		{q[1].Y - q[0].Y + g*q[1].Y, q[3].Y - q[0].Y + h*q[3].Y, q[0].Y},
		{g, h, 1},
	}
}

// apply maps a point by a projection.
func apply(m *color.Matrix, x, y float64) (float64, float64) {
	a, b, c := m.Times(x, y, 1)
	return a / c, b / c
}

// Part is the part of the quad between two places across (0–1 from the left)
// and two down (0–1 from the top), in perspective.
func (q Quad) Part(u0, v0, u1, v1 float64) Quad {
	m := q.projection()
	var out Quad
	for i, p := range Box(u0, v0, u1, v1) {
		out[i].X, out[i].Y = apply(&m, p.X, p.Y)
	}
	return out
}
