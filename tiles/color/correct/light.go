package correct

import (
	"cmp"
	"math"
	"slices"
)

// Spot is one look at a surface that is the same all over, such as the white
// of the mat, and where in the picture it lies: X to the right and Y down, both
// 0 to 1. Sheet is 0 or 1: what lies on another sheet of paper, or is read in
// another way, tells how the light changes and not how much there is.
type Spot struct {
	X, Y  float64
	RGB   RGB
	Sheet int
}

// Light is how the light falls across a picture. The zero Light is even.
type Light struct {
	shape [3][shapes]float64 // of the logarithm of the light, a row a channel
	mean  [shapes]float64    // the shape's terms averaged over the spots
	edges []*edge            // of shadows
	near  *near              // what neither explains, as the spots nearby show it; nil = nothing
	other [3]float64         // logarithm of what spots of sheet 1 give back over those of sheet 0
	rest  float64            // root mean square of what the smooth shape leaves over, in the green's logarithm
	left  float64            // the same of shape and edge
	glare *Glare             // what may be laid over it; nil = nothing
}

// Uneven is how far the spots are, as a share of their light, from any light that
// falls evenly or changes smoothly: under 0.005 for most photos without a
// shadow's edge, over 0.024 for most with one.
func (l Light) Uneven() float64 { return l.rest }

// Left is how far they are from the light as it was followed, shadows' edges and all.
func (l Light) Left() float64 { return l.left }

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
	spots = slices.DeleteFunc(slices.Clone(spots), func(s Spot) bool {
		return !(min(s.RGB[0], s.RGB[1], s.RGB[2]) > 0)
	})
	light := shadowed(spots)
	light.findGlare(spots)
	return light
}

// shadowed is the light as its smooth change and shadows explain it.
func shadowed(spots []Spot) Light {
	const forPlane, forBow = 3, 6
	if len(spots) < forPlane {
		return Light{}
	}
	light := lightOf(2, unstained(spots, 2))
	if len(spots) >= forBow {
		bowed := unstained(spots, shapes)
		if validationError(bowed, shapes) < validationError(bowed, 2) {
			light = lightOf(shapes, bowed)
		}
	}
	light.findEdges(spots)
	light.findNear(spots)
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
		for _, e := range l.edges {
			log += e.log[k] * (e.inside(x, y) - e.mean)
		}
		if l.near != nil {
			log += l.near.at(x, y, k)
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

// unstained leaves out, one after the other, spots that lie more than 3 % and
// five times the usual distance off a fit to the rest; at most a third.
func unstained(spots []Spot, used int) []Spot {
	for most := len(spots) / 3; most > 0 && len(spots) > used+3; most-- {
		off := leftOut(spots, used)
		for i, v := range off {
			off[i] = math.Abs(v)
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
