package geometry

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Projection maps one plane onto another as a camera does: 3 × 3, row by row.
type Projection [9]float64

// To maps a point.
func (h *Projection) To(p Point) Point {
	w := h[6]*p.X + h[7]*p.Y + h[8]
	return Point{(h[0]*p.X + h[1]*p.Y + h[2]) / w, (h[3]*p.X + h[4]*p.Y + h[5]) / w}
}

// Projection maps the unit square, (0, 0) (1, 0) (1, 1) (0, 1), onto the quad,
// in closed form. Source: Heckbert, Fundamentals of Texture Mapping and Image
// Warping (1989), 2.2.3.
func (q Quad) Projection() Projection {
	s := q[0].Minus(q[1]).Plus(q[2]).Minus(q[3])
	a, b := q[1].Minus(q[2]), q[3].Minus(q[2])
	det := a.Cross(b)
	g, h := s.Cross(b)/det, a.Cross(s)/det
	return Projection{
		q[1].X - q[0].X + g*q[1].X, q[3].X - q[0].X + h*q[3].X, q[0].X,
		q[1].Y - q[0].Y + g*q[1].Y, q[3].Y - q[0].Y + h*q[3].Y, q[0].Y,
		g, h, 1,
	}
}

// Fit is the projection that takes from onto to with the least squared error
// of the linear equations, in coordinates centered and scaled first (Hartley,
// In Defense of the Eight-Point Algorithm, 1997). It needs four points or
// more, not all in a line.
func Fit(from, to []Point) (Projection, bool) {
	nf, nt := normal(from), normal(to)
	a, b := mat.NewDense(2*len(from), 8, nil), mat.NewVecDense(2*len(from), nil)
	for i := range from {
		p, q := nf.To(from[i]), nt.To(to[i])
		a.SetRow(2*i, []float64{p.X, p.Y, 1, 0, 0, 0, -q.X * p.X, -q.X * p.Y})
		a.SetRow(2*i+1, []float64{0, 0, 0, p.X, p.Y, 1, -q.Y * p.X, -q.Y * p.Y})
		b.SetVec(2*i, q.X)
		b.SetVec(2*i+1, q.Y)
	}
	var x mat.VecDense
	if err := x.SolveVec(a, b); err != nil {
		return Projection{}, false
	}
	h := Projection{8: 1}
	copy(h[:], x.RawVector().Data)
	h = nt.adjugate().Times(h).Times(nf)
	last := h[8]
	for i := range h {
		h[i] /= last
	}
	return h, !math.IsNaN(h[0]) && !math.IsInf(h[0], 0)
}

// normal shifts and scales points to mean 0 and mean distance √2.
func normal(ps []Point) Projection {
	var c Point
	for _, p := range ps {
		c = c.Plus(p)
	}
	c = c.Times(1 / float64(len(ps)))
	d := 0.0
	for _, p := range ps {
		d += p.Distance(c)
	}
	s := math.Sqrt2 * float64(len(ps)) / max(d, 1e-9)
	return Projection{s, 0, -s * c.X, 0, s, -s * c.Y, 0, 0, 1}
}

// Times is the projection that maps by k first and then by h.
func (h Projection) Times(k Projection) Projection {
	var out Projection
	for i := range 3 {
		for j := range 3 {
			for n := range 3 {
				out[3*i+j] += h[3*i+n] * k[3*n+j]
			}
		}
	}
	return out
}

// Inverse maps back. Of a projection onto a line it is not finite.
func (h Projection) Inverse() Projection {
	out := h.adjugate()
	det := h[0]*out[0] + h[1]*out[3] + h[2]*out[6]
	for i := range out {
		out[i] /= det
	}
	return out
}

// adjugate is the inverse but for its scale, by cofactors.
func (h Projection) adjugate() Projection {
	return Projection{
		h[4]*h[8] - h[5]*h[7], h[2]*h[7] - h[1]*h[8], h[1]*h[5] - h[2]*h[4],
		h[5]*h[6] - h[3]*h[8], h[0]*h[8] - h[2]*h[6], h[2]*h[3] - h[0]*h[5],
		h[3]*h[7] - h[4]*h[6], h[1]*h[6] - h[0]*h[7], h[0]*h[4] - h[1]*h[3],
	}
}
