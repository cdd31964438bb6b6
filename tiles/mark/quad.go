package mark

import (
	"math"

	"github.com/twodip/twodip/tiles/geometry"
)

// quad fits four straight sides to an outline and gives their crossings; an
// outline that has not four straight sides is refused. A corner lies between
// pixels, so a crack's x and y are picture coordinates as they are.
func (c contour) quad() (geometry.Quad, bool) {
	corner, ok := c.corners()
	if !ok {
		return geometry.Quad{}, false
	}
	var sides [4]edgeLine
	for i := range sides {
		if sides[i], ok = c.side(corner[i], corner[(i+1)%4]); !ok {
			return geometry.Quad{}, false
		}
	}
	var q geometry.Quad
	for i := range q {
		if q[i], ok = sides[(i+3)%4].meet(sides[i]); !ok {
			return geometry.Quad{}, false
		}
	}
	near := 0.15*q.Shortest() + 3
	for i := range q {
		if q[i].Distance(c.point(corner[i])) > near {
			return geometry.Quad{}, false
		}
	}
	return q, q.Convex() && q.Shortest() >= leastSide*0.6
}

func (c contour) point(i int) geometry.Point {
	p := c.points[i%len(c.points)]
	return geometry.Point{X: float64(p.x), Y: float64(p.y)}
}

// corners finds the four outermost points: the two ends of the longest
// diagonal, and on each side of it the point farthest away.
func (c contour) corners() ([4]int, bool) {
	first := c.farthest(func(p geometry.Point) float64 {
		return p.Distance(geometry.Point{X: float64(c.x0+c.x1)/2 - 1, Y: float64(c.y0+c.y1)/2 - 1})
	})
	a := c.point(first)
	third := c.farthest(func(p geometry.Point) float64 { return p.Distance(a) })
	b := c.point(third)
	along := b.Minus(a)
	second := c.farthest(func(p geometry.Point) float64 { return along.Cross(p.Minus(a)) })
	fourth := c.farthest(func(p geometry.Point) float64 { return -along.Cross(p.Minus(a)) })
	// The outline runs clockwise; so must the corners.
	q := [4]int{first, fourth, third, second}
	n := len(c.points)
	for i := 1; i < 4; i++ {
		q[i] = first + (q[i]-first+n)%n
		if q[i] <= q[i-1] {
			return q, false
		}
	}
	return q, true
}

func (c contour) farthest(measure func(geometry.Point) float64) int {
	best, at := math.Inf(-1), 0
	for i := range c.points {
		if d := measure(c.point(i)); d > best {
			best, at = d, i
		}
	}
	return at
}

// edgeLine is a point on it and its direction, of length 1.
type edgeLine struct{ at, along geometry.Point }

// meet is where two lines cross.
func (l edgeLine) meet(m edgeLine) (geometry.Point, bool) {
	d := l.along.Cross(m.along)
	if math.Abs(d) < 0.05 {
		return geometry.Point{}, false
	}
	t := m.at.Minus(l.at).Cross(m.along) / d
	return l.at.Plus(l.along.Times(t)), true
}

// side fits a line by least squared distance to the outline from one corner
// to the next, leaving out a tenth at both ends; it must be straight.
func (c contour) side(from, to int) (edgeLine, bool) {
	if to < from {
		to += len(c.points)
	}
	n := to - from
	rest := n / 10
	step := max(n/200, 1)
	var sx, sy, sxx, sxy, syy, k float64
	for i := from + rest; i <= to-rest; i += step {
		p := c.point(i)
		sx, sy, k = sx+p.X, sy+p.Y, k+1
		sxx, sxy, syy = sxx+p.X*p.X, sxy+p.X*p.Y, syy+p.Y*p.Y
	}
	if k < 4 {
		return edgeLine{}, false
	}
	at := geometry.Point{X: sx / k, Y: sy / k}
	vxx, vxy, vyy := sxx/k-at.X*at.X, sxy/k-at.X*at.Y, syy/k-at.Y*at.Y
	angle := math.Atan2(2*vxy, vxx-vyy) / 2
	l := edgeLine{at: at, along: geometry.Point{X: math.Cos(angle), Y: math.Sin(angle)}}
	across := (vxx+vyy)/2 - math.Hypot((vxx-vyy)/2, vxy)
	length := c.point(from).Distance(c.point(to))
	return l, across <= math.Pow(0.6+0.02*length, 2)
}
