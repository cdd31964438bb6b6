package correct

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// edge is where a shadow begins: a straight line across the picture, with a
// penumbra, and how much less of each channel's light falls beyond it.
type edge struct {
	way, at, soft float64    // direction across the line, radians; the line's place along it; width of the penumbra
	log           [3]float64 // of the share of light that falls in the shadow
	mean          float64    // of inside over the spots
}

// inside is how deep in the shadow a place lies, 0 to 1: a penumbra falls off
// about as the normal distribution's sum does.
func (e *edge) inside(x, y float64) float64 {
	d := (x-0.5)*math.Cos(e.way) + (y-0.5)*math.Sin(e.way) - e.at
	return 0.5 * (1 + math.Erf(d/e.soft))
}

// Bounds on a shadow's edge.
const (
	unevenFrom = 0.012 // what the smooth light must leave over for an edge to be looked for
	edgeClears = 0.7   // of that, what the light with an edge may leave over at most
	oneClears  = 0.9   // the same where there are spots enough for several edges, of which one alone clears little
	widestEdge = 0.16  // of the penumbra, in picture widths

	leastShadow = 3 // spots that lie in it, and beside it
)

// spotsAnEdge is how many spots it takes for each edge after the first.
const spotsAnEdge = 40

// findEdges looks for the edges of shadows that smooth light does not explain:
// among lines of all directions and places, the one that takes most from what is
// left over and, where there are many spots, another one or two.
func (l *Light) findEdges(spots []Spot) {
	if l.rest = leftOver(*l, spots); l.rest < unevenFrom || len(spots) < 2*shapes {
		l.left = l.rest
		return
	}
	if unstained := unstained(spots, shapes); len(spots)-len(unstained) < leastShadow {
		l.rest = leftOver(*l, unstained) // a finger or a stain is no shadow
	}
	if l.left = l.rest; l.rest < unevenFrom {
		return
	}
	clears := edgeClears
	if len(spots) > 2*spotsAnEdge {
		clears = oneClears
	}
	for len(l.edges) == 0 || len(l.edges) < 3 && len(l.edges)*spotsAnEdge < len(spots) && l.left > unevenFrom {
		best := newEdgeFit(spots, l.edges).strongest()
		with := lightOf(shapes, spots, append(slices.Clone(l.edges), &best)...)
		left := leftOver(with, spots)
		if left >= clears*l.left {
			return
		}
		with.rest, with.left = l.rest, left
		*l = with
	}
}

// strongest is the edge that explains most.
func (f *edgeFit) strongest() edge {
	best := f.search(edge{soft: widestEdge}, math.Pi, 0.6, math.Pi/18, 0.05)
	best = f.search(best, math.Pi/18, 0.05, math.Pi/90, 0.01)
	return f.search(best, math.Pi/90, 0.01, math.Pi/450, 0.002)
}

// leftOver is the root mean square of what light leaves over, in the green's
// logarithm.
func leftOver(l Light, spots []Spot) float64 {
	var sum, square float64
	for _, s := range spots {
		v := math.Log(l.even(s)[1])
		sum, square = sum+v, square+v*v
	}
	n := float64(len(spots))
	return math.Sqrt(max(0, square/n-sum/n*sum/n))
}

// edgeFit tells how much an edge explains of what no smooth light does: both
// projected off the smooth shapes first, so that each edge costs a few products
// (Frisch and Waugh, Econometrica 1 (1933) 387–401).
type edgeFit struct {
	spots  []Spot
	smooth *mat.Dense // an orthonormal basis, at the spots, of the smooth shapes and of edges found before
	over   []float64  // what they leave over of the green
}

func newEdgeFit(spots []Spot, before []*edge) *edgeFit {
	n := len(spots)
	all := 1 + shapes + len(before)
	if severalSheets(spots) {
		all++
	}
	a := mat.NewDense(n, all, nil)
	f := &edgeFit{spots: spots, over: make([]float64, n)}
	for i, s := range spots {
		row := shapeAt(s.X, s.Y)
		terms := append([]float64{1}, row[:]...)
		for _, e := range before {
			terms = append(terms, e.inside(s.X, s.Y))
		}
		a.SetRow(i, append(terms, float64(s.Sheet))[:all])
		f.over[i] = math.Log(s.RGB[1])
	}
	var qr mat.QR
	qr.Factorize(a)
	var q mat.Dense
	qr.QTo(&q)
	f.smooth = mat.DenseCopyOf(q.Slice(0, n, 0, all))
	f.project(f.over)
	return f
}

// project takes off what the smooth shapes explain.
func (f *edgeFit) project(v []float64) {
	n, k := f.smooth.Dims()
	for j := range k {
		dot := 0.0
		for i := range n {
			dot += v[i] * f.smooth.At(i, j)
		}
		for i := range n {
			v[i] -= dot * f.smooth.At(i, j)
		}
	}
}

// explains is the square that an edge takes from what is left over.
func (f *edgeFit) explains(e *edge, in []float64) float64 {
	deep := 0
	for i, s := range f.spots {
		if in[i] = e.inside(s.X, s.Y); in[i] > 0.5 {
			deep++
		}
	}
	if deep < leastShadow || len(in)-deep < leastShadow {
		return 0
	}
	return f.explained(in)
}

// explained is the square that a term takes from what is left over; in is spent.
func (f *edgeFit) explained(in []float64) float64 {
	f.project(in)
	var dot, square float64
	for i, v := range in {
		dot, square = dot+v*f.over[i], square+v*v
	}
	if square < 1e-3 {
		return 0
	}
	return dot * dot / square
}

// search tries edges about one, in steps.
func (f *edgeFit) search(from edge, way, at, wayStep, atStep float64) edge {
	in := make([]float64, len(f.spots))
	best, most := from, 0.0
	for w := from.way - way; w < from.way+way; w += wayStep {
		for a := from.at - at; a <= from.at+at; a += atStep {
			for soft := 0.01; soft <= widestEdge; soft *= 2 {
				e := edge{way: w, at: a, soft: soft}
				if v := f.explains(&e, in); v > most {
					best, most = e, v
				}
			}
		}
	}
	return best
}
