package mark

import (
	"math"

	"github.com/twodip/twodip/tiles/geometry"
)

// refine finds the four sides of a mark again, in the full picture and in
// linear light, where blur moves the middle between black and white least, and
// gives their crossings. cells says how many cells a side has: sides are
// looked for up to one cell away. It refuses a quad whose sides are not there.
func (p Plane) refine(q geometry.Quad, cells int) (geometry.Quad, bool) {
	for range 2 {
		var sides [4]bend
		for i := range sides {
			var ok bool
			if sides[i], ok = p.edge(q[i], q[(i+1)%4], cells); !ok {
				return geometry.Quad{}, false
			}
		}
		next := q
		for i := range q {
			next[i] = crossing(sides[(i+3)%4], sides[i])
		}
		if !next.Convex() {
			return geometry.Quad{}, false
		}
		q = next
	}
	return q, true
}

// bend is a side that a lens may have bent: across(t) = a + b·t + c·t², t
// running from −1 to 1 between two corners, across counted to the right of
// the way, that is, inwards.
type bend struct {
	middle, half, normal geometry.Point
	a, b, c              float64
}

func (s bend) point(t float64) geometry.Point {
	return s.middle.Plus(s.half.Times(t)).Plus(s.normal.Times(s.a + t*(s.b+t*s.c)))
}

// Profiles along a side: how many at most, and the share of the side left out
// at both ends, where the corner rounds the edge.
const (
	mostProfiles = 40
	leftOut      = 0.09
)

// edge measures where black begins along the side from one corner to the next
// and fits a bend to it; a short side is taken as straight.
func (p Plane) edge(from, to geometry.Point, cells int) (bend, bool) {
	half := to.Minus(from).Times(0.5)
	length := 2 * half.Length()
	if length < 4 {
		return bend{}, false
	}
	s := bend{middle: from.Plus(half), half: half, normal: geometry.Point{X: -half.Y, Y: half.X}.Times(2 / length)}
	reach := min(max(0.85*length/float64(cells), 2.5), 24)
	n := min(max(int(length/2), 8), mostProfiles)
	ts, ds := make([]float64, 0, n), make([]float64, 0, n)
	for i := range n {
		t := (2*(float64(i)+0.5)/float64(n) - 1) * (1 - 2*leftOut)
		if d, ok := p.step(s.point(t), s.normal, reach); ok {
			ts, ds = append(ts, t), append(ds, d)
		}
	}
	if len(ts) < (n+1)/2 {
		return bend{}, false
	}
	return s, s.fit(ts, ds, length > 90)
}

// step finds how far along the normal the light falls through the middle
// between what is outside and what is inside.
func (p Plane) step(at, normal geometry.Point, reach float64) (float64, bool) {
	const most = 64
	var v [most]float64
	n := min(max(int(reach*4), 12), most)
	for i := range n {
		d := (2*float64(i)/float64(n-1) - 1) * reach
		v[i] = p.at(at.Plus(normal.Times(d)), linear)
	}
	k := max(n/6, 2)
	light, dark := 0.0, 0.0
	for i := range k {
		light += v[i]
		dark += v[n-1-i]
	}
	light, dark = light/float64(k), dark/float64(k)
	if light-dark < 0.02 || light < 1.3*dark {
		return 0, false
	}
	return falls(v[:n], (light+dark)/2, reach)
}

// falls is where the profile last is over the middle before it stays under it,
// nearest to the expected place.
func falls(v []float64, middle, reach float64) (float64, bool) {
	n := len(v)
	best, found := 0.0, false
	for i := 1; i < n; i++ {
		if v[i-1] >= middle && v[i] < middle {
			x := float64(i-1) + (v[i-1]-middle)/(v[i-1]-v[i])
			d := (2*x/float64(n-1) - 1) * reach
			if !found || math.Abs(d) < math.Abs(best) {
				best, found = d, true
			}
		}
	}
	return best, found
}

// fit sets a, b and, where bent, c by least squares, twice over without the
// profiles that lie apart from the others.
func (s *bend) fit(ts, ds []float64, bent bool) bool {
	a, b, c := s.a, s.b, s.c
	keep := make([]bool, len(ts))
	for i := range keep {
		keep[i] = true
	}
	for range 3 {
		var ok bool
		if a, b, c, ok = parabola(ts, ds, keep, bent); !ok {
			return false
		}
		limit := 0.0
		count := 0.0
		for i, t := range ts {
			if keep[i] {
				limit += math.Abs(ds[i] - a - t*(b+t*c))
				count++
			}
		}
		limit = max(3*limit/count, 0.15)
		for i, t := range ts {
			keep[i] = math.Abs(ds[i]-a-t*(b+t*c)) <= limit
		}
	}
	s.a, s.b, s.c = a, b, c
	return true
}

// parabola is the least-squares a + b·t + c·t²; c stays 0 where not bent.
func parabola(ts, ds []float64, keep []bool, bent bool) (a, b, c float64, ok bool) {
	var m [5]float64
	var y [3]float64
	for i, t := range ts {
		if !keep[i] {
			continue
		}
		w := 1.0
		for j := range m {
			m[j] += w
			if j < 3 {
				y[j] += w * ds[i]
			}
			w *= t
		}
	}
	if m[0] < 5 {
		return 0, 0, 0, false
	}
	if !bent {
		det := m[0]*m[2] - m[1]*m[1]
		return (y[0]*m[2] - y[1]*m[1]) / det, (m[0]*y[1] - m[1]*y[0]) / det, 0, det > 1e-9
	}
	det := det3(m[0], m[1], m[2], m[1], m[2], m[3], m[2], m[3], m[4])
	a = det3(y[0], m[1], m[2], y[1], m[2], m[3], y[2], m[3], m[4]) / det
	b = det3(m[0], y[0], m[2], m[1], y[1], m[3], m[2], y[2], m[4]) / det
	c = det3(m[0], m[1], y[0], m[1], m[2], y[1], m[2], m[3], y[2]) / det
	return a, b, c, math.Abs(det) > 1e-9
}

func det3(a, b, c, d, e, f, g, h, i float64) float64 {
	return a*(e*i-f*h) - b*(d*i-f*g) + c*(d*h-e*g)
}

// crossing is where the end of one side meets the beginning of the next.
func crossing(before, after bend) geometry.Point {
	t, u := 1.0, -1.0
	for range 4 {
		l := edgeLine{at: before.point(t), along: before.point(t + 0.01).Minus(before.point(t))}
		m := edgeLine{at: after.point(u), along: after.point(u + 0.01).Minus(after.point(u))}
		d := l.along.Cross(m.along)
		if d == 0 {
			break
		}
		gap := m.at.Minus(l.at)
		t += 0.01 * gap.Cross(m.along) / d
		u += 0.01 * gap.Cross(l.along) / d
	}
	return before.point(t)
}
