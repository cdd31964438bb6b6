package correct

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Spot is one look at a surface that is the same all over, such as the white
// of the mat, and where in the picture it lies: X to the right and Y down, both
// 0 to 1.
type Spot struct {
	X, Y float64
	RGB  RGB
}

// Light is how the light falls across a picture. The zero Light is even.
type Light struct {
	shape [3][shapes]float64 // of the logarithm of the light, a row a channel
	mean  [shapes]float64    // the shape's terms averaged over the spots
	edge  *edge              // of a shadow; nil = none
	rest  float64            // root mean square of what the smooth shape leaves over, in the green's logarithm
	left  float64            // the same of shape and edge
}

// Uneven is how far the spots are, as a share of their light, from any light that
// falls evenly or changes smoothly: under 0.005 for most photos without a
// shadow's edge, over 0.024 for most with one.
func (l Light) Uneven() float64 { return l.rest }

// shapes is how many terms the light's shape has: x, y, x², xy, y².
const shapes = 5

func shapeAt(x, y float64) [shapes]float64 {
	x, y = 2*x-1, 2*y-1
	return [shapes]float64{x, y, x * x, x * y, y * y}
}

// LightFrom finds how the light falls from spots of one surface: nothing from
// fewer than three, a plane from three, a bowed one where the cross-validated
// error of six or more is smaller by it. Light multiplies, so it is the logarithm
// that is fitted. A spot far off the others (a shadow, a stain) is left out.
func LightFrom(spots []Spot) Light {
	const forPlane, forBow = 3, 6
	spots = slices.DeleteFunc(slices.Clone(spots), func(s Spot) bool {
		return !(min(s.RGB[0], s.RGB[1], s.RGB[2]) > 0)
	})
	if len(spots) < forPlane {
		return Light{}
	}
	light := lightOf(2, unstained(spots, 2), nil)
	if len(spots) >= forBow {
		bowed := unstained(spots, shapes)
		if validationError(bowed, shapes) < validationError(bowed, 2) {
			light = lightOf(shapes, bowed, nil)
		}
	}
	light.findEdge(spots)
	return light
}

// At is the light at a place, relative to the light at the spots taken
// together.
func (l Light) At(x, y float64) (out RGB) {
	for k := range out {
		log := 0.0
		for i, v := range shapeAt(x, y) {
			log += l.shape[k][i] * (v - l.mean[i])
		}
		if l.edge != nil {
			log += l.edge.log[k] * (l.edge.inside(x, y) - l.edge.mean)
		}
		out[k] = math.Exp(log)
	}
	return out
}

// Level is what a camera would have counted at a place, had the light been
// even.
func (l Light) Level(x, y float64, seen RGB) RGB {
	for k, light := range l.At(x, y) {
		seen[k] /= light
	}
	return seen
}

// lightOf fits the first terms of the shape to the spots, all three channels
// at once. A trace of ridge keeps a term at nothing where the spots cannot tell
// it, as when they all lie on a line. Where e is given, the depth of a shadow
// beyond it is fitted with them.
func lightOf(used int, spots []Spot, e *edge) (l Light) {
	const ridge = 1e-4
	n, all := len(spots), used
	if e != nil {
		l.edge, all = e, used+1
	}
	a, b := mat.NewDense(n+used, all, nil), mat.NewDense(n+used, 3, nil)
	var mean RGB
	for _, s := range spots {
		for i, v := range shapeAt(s.X, s.Y) {
			l.mean[i] += v / float64(n)
		}
		for k, v := range s.RGB {
			mean[k] += math.Log(v) / float64(n)
		}
		if e != nil {
			e.mean += e.inside(s.X, s.Y) / float64(n)
		}
	}
	for row, s := range spots {
		for i, v := range shapeAt(s.X, s.Y) {
			if i < used {
				a.Set(row, i, v-l.mean[i])
			}
		}
		if e != nil {
			a.Set(row, used, e.inside(s.X, s.Y)-e.mean)
		}
		for k, v := range s.RGB {
			b.Set(row, k, math.Log(v)-mean[k])
		}
	}
	for i := range used {
		a.Set(n+i, i, math.Sqrt(ridge*float64(n)))
	}
	var x mat.Dense
	if x.Solve(a, b) != nil {
		return Light{}
	}
	for k := range 3 {
		for i := range used {
			l.shape[k][i] = x.At(i, k)
		}
		if e != nil {
			e.log[k] = x.At(used, k)
		}
	}
	return l
}

// validationError is the cross-validated error: each spot is left out in turn
// and held against a fit to the others, the mean square of what is left in the
// green's logarithm.
func validationError(spots []Spot, used int) float64 {
	sum := 0.0
	for i, s := range spots {
		rest := without(spots, i)
		r := residual(lightOf(used, rest, nil), rest, s)
		sum += r * r
	}
	return sum / float64(len(spots))
}

// residual is how far, as a logarithm, a spot's green lies off the light that
// others show.
func residual(l Light, others []Spot, s Spot) float64 {
	level := 0.0
	for _, o := range others {
		level += math.Log(l.Level(o.X, o.Y, o.RGB)[1]) / float64(len(others))
	}
	return math.Log(l.Level(s.X, s.Y, s.RGB)[1]) - level
}

// unstained leaves out, one after the other, spots that lie more than 3 % and
// five times the usual distance off a fit to the rest; at most a third.
func unstained(spots []Spot, used int) []Spot {
	for most := len(spots) / 3; most > 0 && len(spots) > used+3; most-- {
		off := make([]float64, len(spots))
		for i, s := range spots {
			rest := without(spots, i)
			off[i] = math.Abs(residual(lightOf(used, rest, nil), rest, s))
		}
		worst := slices.Index(off, slices.MaxFunc(off, cmp.Compare[float64]))
		sorted := slices.Sorted(slices.Values(off))
		if off[worst] < max(0.03, 5*sorted[len(sorted)/2]) {
			break
		}
		spots = without(spots, worst)
	}
	return spots
}
