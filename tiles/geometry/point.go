package geometry

import "math"

// Point is a place in a picture, in pixels, or a way from one to another.
type Point struct{ X, Y float64 }

// Plus is the place that the way q leads to.
func (p Point) Plus(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Minus is the way from q to p.
func (p Point) Minus(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Times is the way s times as long.
func (p Point) Times(s float64) Point { return Point{p.X * s, p.Y * s} }

// Cross is the cross product, positive where q turns to the right of p.
func (p Point) Cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }

// Dot is the scalar product.
func (p Point) Dot(q Point) float64 { return p.X*q.X + p.Y*q.Y }

// Length is how long the way is.
func (p Point) Length() float64 { return math.Hypot(p.X, p.Y) }

// Distance is how far apart two places are.
func (p Point) Distance(q Point) float64 { return p.Minus(q).Length() }
