package mark

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// homography maps a plane onto a picture: 3 × 3, row by row, last entry 1.
type homography [9]float64

// to maps a point.
func (h homography) to(p Point) Point {
	w := h[6]*p.X + h[7]*p.Y + h[8]
	return Point{(h[0]*p.X + h[1]*p.Y + h[2]) / w, (h[3]*p.X + h[4]*p.Y + h[5]) / w}
}

// unitSquare maps the square (0,0) (1,0) (1,1) (0,1) onto a quad, in closed
// form (Heckbert, Fundamentals of Texture Mapping and Image Warping, 1989).
func unitSquare(q Quad) homography {
	s := q[0].minus(q[1]).plus(q[2]).minus(q[3])
	a, b := q[1].minus(q[2]), q[3].minus(q[2])
	det := a.cross(b)
	g, h := s.cross(b)/det, a.cross(s)/det
	return homography{
		q[1].X - q[0].X + g*q[1].X, q[3].X - q[0].X + h*q[3].X, q[0].X,
		q[1].Y - q[0].Y + g*q[1].Y, q[3].Y - q[0].Y + h*q[3].Y, q[0].Y,
		g, h, 1,
	}
}

// fitHomography is the map that takes from onto to with the least squared
// error of the linear equations, in coordinates centered and scaled first
// (Hartley, In Defense of the Eight-Point Algorithm, 1997). It needs four
// points or more, not all in a line.
func fitHomography(from, to []Point) (homography, bool) {
	nf, nt := normal(from), normal(to)
	a, b := mat.NewDense(2*len(from), 8, nil), mat.NewVecDense(2*len(from), nil)
	for i := range from {
		p, q := nf.to(from[i]), nt.to(to[i])
		a.SetRow(2*i, []float64{p.X, p.Y, 1, 0, 0, 0, -q.X * p.X, -q.X * p.Y})
		a.SetRow(2*i+1, []float64{0, 0, 0, p.X, p.Y, 1, -q.Y * p.X, -q.Y * p.Y})
		b.SetVec(2*i, q.X)
		b.SetVec(2*i+1, q.Y)
	}
	var x mat.VecDense
	if err := x.SolveVec(a, b); err != nil {
		return homography{}, false
	}
	h := homography{8: 1}
	copy(h[:], x.RawVector().Data)
	h = nt.inverse().times(h).times(nf)
	last := h[8]
	for i := range h {
		h[i] /= last
	}
	return h, !math.IsNaN(h[0]) && !math.IsInf(h[0], 0)
}

// normal shifts and scales points to mean 0 and mean distance √2.
func normal(ps []Point) homography {
	var c Point
	for _, p := range ps {
		c = c.plus(p)
	}
	c = c.times(1 / float64(len(ps)))
	d := 0.0
	for _, p := range ps {
		d += p.distance(c)
	}
	s := math.Sqrt2 * float64(len(ps)) / max(d, 1e-9)
	return homography{s, 0, -s * c.X, 0, s, -s * c.Y, 0, 0, 1}
}

func (h homography) times(k homography) homography {
	var out homography
	for i := range 3 {
		for j := range 3 {
			for n := range 3 {
				out[3*i+j] += h[3*i+n] * k[3*n+j]
			}
		}
	}
	return out
}

// inverse is by cofactors; the scale is left as it falls.
func (h homography) inverse() homography {
	return homography{
		h[4]*h[8] - h[5]*h[7], h[2]*h[7] - h[1]*h[8], h[1]*h[5] - h[2]*h[4],
		h[5]*h[6] - h[3]*h[8], h[0]*h[8] - h[2]*h[6], h[2]*h[3] - h[0]*h[5],
		h[3]*h[7] - h[4]*h[6], h[1]*h[6] - h[0]*h[7], h[0]*h[4] - h[1]*h[3],
	}
}
