package correct

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/interp"
)

// curve is one channel's tone curve: from the file's light to true light. It
// is drawn through the cube roots of both, where tone curves are nearly
// straight and noise is even. Between its two ends it is the PCHIP through the
// knots; before and beyond them, straight.
type curve struct {
	knots  *interp.FritschButland // nil: straight all the way from the first end
	x, y   [2]float64             // the ends, cube roots
	slopes [2]float64             // beyond the ends
}

// straight is a scale of the light alone.
func straight(scale float64) curve { return line(0, math.Cbrt(scale)) }

// line is straight in the cube roots: v = a + b·u.
func line(a, b float64) curve { return curve{y: [2]float64{a, a}, slopes: [2]float64{b, b}} }

// knot is one neutral in one channel: the file's light and the true light.
type knot struct{ file, true float64 }

// through draws the monotone curve (PCHIP: Fritsch and Butland, SIAM J. Sci.
// Stat. Comput. 5 (1984) 300–304) through the knots; with fewer than two of
// use, a straight line.
func through(knots []knot) curve {
	var xs, ys []float64
	slices.SortFunc(knots, func(a, b knot) int { return cmp.Compare(a.file, b.file) })
	for _, k := range knots {
		x, y := math.Cbrt(k.file), math.Cbrt(k.true)
		n := len(xs)
		if n > 0 && (x-xs[n-1] < 1e-3 || y <= ys[n-1]) {
			continue
		}
		xs, ys = append(xs, x), append(ys, y)
	}
	if len(xs) < 2 {
		return straight(scaleOf(knots))
	}
	c := curve{knots: new(interp.FritschButland)}
	if err := c.knots.Fit(xs, ys); err != nil {
		return straight(scaleOf(knots))
	}
	last := len(xs) - 1
	c.x, c.y = [2]float64{xs[0], xs[last]}, [2]float64{ys[0], ys[last]}
	// Beyond the ends the curve goes on as its outermost chord does.
	c.slopes[0] = (ys[1] - ys[0]) / (xs[1] - xs[0])
	c.slopes[1] = (ys[last] - ys[last-1]) / (xs[last] - xs[last-1])
	return c
}

// scaleOf is the one factor that serves all knots, the lightest counting most.
func scaleOf(knots []knot) float64 {
	var top, bottom float64
	for _, k := range knots {
		top += k.true * k.file
		bottom += k.file * k.file
	}
	if bottom == 0 {
		return 1
	}
	return top / bottom
}

func (c *curve) at(light float64) float64 {
	x, y := math.Cbrt(light), 0.0
	switch {
	case c.knots == nil || x < c.x[0]:
		y = c.y[0] + c.slopes[0]*(x-c.x[0])
	case x > c.x[1]:
		y = c.y[1] + c.slopes[1]*(x-c.x[1])
	default:
		y = c.knots.Predict(x)
	}
	return y * y * y
}
