package mark

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"

	"github.com/twodip/twodip/tiles/geometry"
)

// anchor is a place on the ground and where it was seen.
type anchor struct {
	x, y   float64 // mm
	mx, my float64 // middle of the mark it belongs to, mm
	seen   geometry.Point
	weight float64
}

var errNoView = errors.New("the marks do not lie as on a flat page seen by a camera")

// start is the camera that sees the anchors best with a given focal length
// and no distortion: the plane's geometry.Projection taken apart.
func start(anchors []anchor, w, h int, focal float64) (View, error) {
	from, to := make([]geometry.Point, len(anchors)), make([]geometry.Point, len(anchors))
	axis := geometry.Point{X: float64(w) / 2, Y: float64(h) / 2}
	for i, a := range anchors {
		from[i], to[i] = geometry.Point{X: a.x, Y: a.y}, a.seen.Minus(axis).Times(1/focal)
	}
	m, ok := geometry.Fit(from, to)
	if !ok {
		return View{}, errNoView
	}
	c0, c1, c2 := [3]float64{m[0], m[3], m[6]}, [3]float64{m[1], m[4], m[7]}, [3]float64{m[2], m[5], m[8]}
	s := 2 / (norm(c0) + norm(c1))
	if c2[2] < 0 {
		s = -s
	}
	x := scaled(c0, 1/norm(c0)*sign(s))
	y := scaled(c1, sign(s))
	y = plus(y, scaled(x, -dot(x, y)))
	if norm(y) == 0 {
		return View{}, errNoView
	}
	y = scaled(y, 1/norm(y))
	z := [3]float64{x[1]*y[2] - x[2]*y[1], x[2]*y[0] - x[0]*y[2], x[0]*y[1] - x[1]*y[0]}
	return View{
		turn:  [9]float64{x[0], y[0], z[0], x[1], y[1], z[1], x[2], y[2], z[2]},
		shift: scaled(c2, s), focal: focal, axis: axis,
	}, nil
}

func norm(a [3]float64) float64                 { return math.Sqrt(dot(a, a)) }
func dot(a, b [3]float64) float64               { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func scaled(a [3]float64, s float64) [3]float64 { return [3]float64{a[0] * s, a[1] * s, a[2] * s} }
func plus(a, b [3]float64) [3]float64           { return [3]float64{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }
func sign(x float64) float64                    { return math.Copysign(1, x) }

// moved is the view with a step in every parameter.
func (v View) moved(d [pCount]float64) View {
	v.turn = [9]float64(geometry.Projection(rotation([3]float64{d[0], d[1], d[2]})).Times(geometry.Projection(v.turn)))
	far := norm(v.shift)
	for i := range v.shift {
		v.shift[i] += far * d[pShift+i]
	}
	v.focal *= math.Exp(d[pFocal])
	v.k1 += d[pK1]
	v.k2 += d[pK2]
	v.axis = v.axis.Plus(geometry.Point{X: d[pAxis], Y: d[pAxis+1]}.Times(v.focal))
	v.grow += d[pGrow]
	for i := range v.bow.k {
		v.bow.k[i] += d[pBow+i] * v.bow.half
	}
	return v
}

// print is where an anchor is seen, with what ink adds to its mark.
func (v *View) print(a anchor) geometry.Point {
	return v.See(a.x+v.grow*(a.x-a.mx), a.y+v.grow*(a.y-a.my), 0)
}

// fit moves the view until the anchors are seen where they were, by
// Levenberg's and Marquardt's damped least squares; anchors that stay far off
// count less and less (Cauchy weights at one pixel).
func (v View) fit(anchors []anchor, l lens, bowed bool) (View, error) {
	begin, prior, at := v, l.prior(bowed), l.deviation(&v)
	damp := 1e-3
	cost := v.cost(anchors, at, prior)
	for range 60 {
		a, g := v.equations(anchors, at, prior)
		step, ok := solveDamped(a, g, damp)
		if !ok {
			return begin, errNoView
		}
		next := v.moved(step)
		total := l.deviation(&next)
		c := next.cost(anchors, total, prior)
		if math.IsNaN(c) || c >= cost {
			if damp *= 8; damp > 1e9 {
				break
			}
			continue
		}
		done := cost-c < 1e-7*cost
		v, at, cost, damp = next, total, c, max(damp/6, 1e-9)
		if done {
			break
		}
	}
	v.Residual = v.residual(anchors)
	return v, nil
}

func (v *View) cost(anchors []anchor, at, prior [pCount]float64) float64 {
	sum := 0.0
	for _, a := range anchors {
		d := v.print(a).Minus(a.seen)
		sum += a.weight * math.Log1p(d.Dot(d))
	}
	for i, s := range prior {
		if s > 0 {
			sum += at[i] * at[i] / (s * s)
		}
	}
	return sum
}

// equations are the normal equations of one step, the derivatives by
// differences.
func (v *View) equations(anchors []anchor, at, prior [pCount]float64) (*mat.SymDense, *mat.VecDense) {
	const h = 1e-6
	var free []int
	var near [pCount]View
	for i, s := range prior {
		if s >= 0 {
			free = append(free, i)
			var d [pCount]float64
			d[i] = h
			near[i] = v.moved(d)
		}
	}
	a, g := mat.NewSymDense(pCount, nil), mat.NewVecDense(pCount, nil)
	var jx, jy [pCount]float64
	for _, an := range anchors {
		p := v.print(an)
		r := an.seen.Minus(p)
		w := an.weight / (1 + r.Dot(r))
		for _, i := range free {
			q := near[i].print(an)
			jx[i], jy[i] = (q.X-p.X)/h, (q.Y-p.Y)/h
		}
		for n, i := range free {
			g.SetVec(i, g.AtVec(i)+w*(jx[i]*r.X+jy[i]*r.Y))
			for _, j := range free[n:] {
				a.SetSym(i, j, a.At(i, j)+w*(jx[i]*jx[j]+jy[i]*jy[j]))
			}
		}
	}
	for i, s := range prior {
		switch {
		case s < 0:
			a.SetSym(i, i, 1)
		case s > 0:
			a.SetSym(i, i, a.At(i, i)+1/(s*s))
			g.SetVec(i, g.AtVec(i)-at[i]/(s*s))
		}
	}
	return a, g
}

func solveDamped(a *mat.SymDense, g *mat.VecDense, damp float64) (step [pCount]float64, ok bool) {
	b := mat.NewSymDense(pCount, nil)
	b.CopySym(a)
	for i := range pCount {
		b.SetSym(i, i, a.At(i, i)*(1+damp)+1e-12)
	}
	var c mat.Cholesky
	if !c.Factorize(b) {
		return step, false
	}
	var x mat.VecDense
	if err := c.SolveVecTo(&x, g); err != nil {
		return step, false
	}
	copy(step[:], x.RawVector().Data)
	return step, !math.IsNaN(step[0])
}

// residual is the root mean square distance, anchors over five pixels off
// left out as wrong.
func (v *View) residual(anchors []anchor) float64 {
	sum, n := 0.0, 0.0
	for _, a := range anchors {
		if d := v.print(a).Distance(a.seen); d < 5 {
			sum, n = sum+d*d, n+1
		}
	}
	if n == 0 {
		return math.Inf(1)
	}
	return math.Sqrt(sum / n)
}
