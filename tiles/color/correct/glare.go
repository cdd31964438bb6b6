package correct

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Glare is what a bright spot in the picture would be, were it light laid over
// what is there, as a lamp's reflection is: it adds, where lamp and shadow
// multiply. Which of the two it is, paper alone does not tell.
type Glare struct {
	spot
	add   RGB   // in its middle
	under Light // what falls without it
	scale RGB   // the paper's light without it over that with it
}

// spot is round, brightest in its middle, and fades as the normal distribution does.
type spot struct {
	x, y, wide, high float64 // its middle, and standard deviations across and down, shares of the picture
}

func (s spot) at(x, y float64) float64 {
	dx, dy := (x-s.x)/s.wide, (y-s.y)/s.high
	return math.Exp(-(dx*dx + dy*dy) / 2)
}

// Glare is what may be light laid over the picture; nil = nothing looks like it.
func (l Light) Glare() *Glare { return l.glare }

// Level is what a camera would have counted at a place, had the light been even and
// nothing been laid over it; on the scale of what Light.Level gives.
func (g *Glare) Level(x, y float64, seen RGB) RGB {
	laid := g.spot.at(x, y)
	for k := range seen {
		seen[k] = max(0, seen[k]-g.add[k]*laid)
	}
	seen = g.under.Level(x, y, seen)
	for k := range seen {
		seen[k] /= g.scale[k]
	}
	return seen
}

// Bounds on glare, from simulated mats in hard light: of 25 with a spot of glare and
// no shadow it was found on 21, of 33 with shadows alone on one.
const (
	glareFrom   = 0.006 // what smooth light must leave over for glare to be looked for
	glareClears = 0.9   // of what shadows leave over, what glare may at most
	glareSpots  = 20    // spots it takes
	glareStarts = 6     // of the likeliest places, fitted closely
	leastUnder  = 0.02  // of a spot's light that is left when glare is taken off, at least
)

// findGlare looks for a spot of light that explains what is seen better than
// shadows do. l is the light as shadows explain it.
func (l *Light) findGlare(spots []Spot) {
	if len(spots) < glareSpots || severalSheets(spots) || l.rest < glareFrom {
		return
	}
	f := newGlareFit(spots)
	best, ok := f.closest()
	if !ok {
		return
	}
	g := &Glare{spot: best.spot}
	for k := range g.add {
		g.add[k] = f.fit(best.spot, k).add
	}
	clean := slices.Clone(spots)
	for i, s := range spots {
		for k := range s.RGB {
			clean[i].RGB[k] = max(s.RGB[k]-g.add[k]*g.spot.at(s.X, s.Y), leastUnder*s.RGB[k])
		}
	}
	if g.under = shadowed(clean); g.under.left >= glareClears*l.left {
		return
	}
	with, without := l.mid(spots), g.under.mid(clean)
	for k := range g.scale {
		g.scale[k] = without[k] / with[k]
	}
	l.glare = g
}

// mid is the mean of the leveled spots.
func (l Light) mid(spots []Spot) (out RGB) {
	for _, s := range spots {
		for k, v := range l.Level(s.X, s.Y, s.RGB) {
			out[k] += v / float64(len(spots))
		}
	}
	return out
}

// glareFit fits light that changes smoothly and a spot laid over it.
type glareFit struct {
	spots []Spot
	terms *mat.Dense // of the smooth light at the spots, the first 1
}

func newGlareFit(spots []Spot) *glareFit {
	f := &glareFit{spots: spots, terms: mat.NewDense(len(spots), 1+shapes, nil)}
	for i, s := range spots {
		shape := shapeAt(s.X, s.Y)
		f.terms.SetRow(i, append([]float64{1}, shape[:]...))
	}
	return f
}

// glared is a spot as fitted: what it adds in its middle, and the root mean square
// of what is left over.
type glared struct {
	spot
	add, left float64
}

// closest is the spot that leaves least; ok is false where none adds anything.
func (f *glareFit) closest() (best glared, ok bool) {
	best.left = math.Inf(1)
	for _, s := range f.likely() {
		if g := f.fit(s, 1); g.left < best.left {
			best = g
		}
	}
	for step := 0.06; step > 0.01; step /= 2 {
		for moved := true; moved; {
			moved = false
			for _, s := range best.around(step) {
				if g := f.fit(s, 1); g.left < 0.999*best.left {
					best, moved = g, true
				}
			}
		}
	}
	return best, best.add > 0
}

// around are spots a step beside one, or larger and smaller.
func (s spot) around(step float64) []spot {
	k := 1 + 3*step
	return []spot{
		{s.x - step, s.y, s.wide, s.high}, {s.x + step, s.y, s.wide, s.high},
		{s.x, s.y - step, s.wide, s.high}, {s.x, s.y + step, s.wide, s.high},
		{s.x, s.y, s.wide * k, s.high * k}, {s.x, s.y, s.wide / k, s.high / k},
	}
}

// likely are the places of a grid where a spot explains most of what the smooth
// light leaves over, taken as if it multiplied: quick, and near enough to begin.
func (f *glareFit) likely() []spot {
	e := newEdgeFit(f.spots, nil)
	type one struct {
		spot
		explains float64
	}
	var all []one
	in := make([]float64, len(f.spots))
	for x := -0.05; x < 1.1; x += 0.1 {
		for y := -0.05; y < 1.1; y += 0.1 {
			for _, wide := range []float64{0.08, 0.12, 0.17, 0.24, 0.34} {
				for _, ratio := range []float64{3. / 4, 4. / 3} { // of a picture's sides
					s := spot{x, y, wide, wide * ratio}
					for i, p := range f.spots {
						in[i] = s.at(p.X, p.Y)
					}
					all = append(all, one{s, e.explained(in)})
				}
			}
		}
	}
	slices.SortStableFunc(all, func(a, b one) int { return cmp.Compare(b.explains, a.explains) })
	out := make([]spot, 0, glareStarts)
	for _, o := range all[:glareStarts] {
		out = append(out, o.spot)
	}
	return out
}

// How a spot is fitted.
const (
	glareSteps = 8    // of Gauss and Newton
	glareStep  = 0.3  // the most that a step changes what the spot adds,
	smoothStep = 1.0  // and a term of the smooth light's logarithm
	bows       = 3    // terms of the smooth light beyond a plane: x², xy, y²
	bowRidge   = 0.1  // holds those small, so that they do not pass for the spot,
	glareRidge = 0.01 // and keeps what the spot adds still where the paper tells nothing of it
)

// fit fits the smooth light's logarithm and what the spot adds to a channel, by
// Gauss and Newton's steps.
func (f *glareFit) fit(s spot, channel int) glared {
	out := glared{spot: s, add: 0.02, left: math.Inf(1)}
	n := len(f.spots)
	laid, logs, c := make([]float64, n), make([]float64, n), make([]float64, shapes+1)
	for i, p := range f.spots {
		laid[i], logs[i] = s.at(p.X, p.Y), math.Log(p.RGB[channel])
		c[0] += logs[i] / float64(n)
	}
	for range glareSteps {
		step, ok := f.step(c, laid, logs, out.add)
		if !ok {
			return out
		}
		for k := range c {
			c[k] += min(max(step[k], -smoothStep), smoothStep)
		}
		out.add = max(0, out.add+min(max(step[len(c)], -glareStep), glareStep))
	}
	square := 0.0
	for i, light := range f.smooth(c) {
		d := logs[i] - math.Log(light+out.add*laid[i])
		square += d * d
	}
	if left := math.Sqrt(square / float64(n)); !math.IsNaN(left) {
		out.left = left
	}
	return out
}

// smooth is the light at the spots by its terms.
func (f *glareFit) smooth(c []float64) []float64 {
	var logs mat.VecDense
	logs.MulVec(f.terms, mat.NewVecDense(len(c), c))
	out := make([]float64, len(f.spots))
	for i := range out {
		out[i] = math.Exp(logs.AtVec(i))
	}
	return out
}

// step is what the terms, and last what the spot adds, are to be changed by; ok is
// false where nothing tells.
func (f *glareFit) step(c, laid, logs []float64, add float64) (step []float64, ok bool) {
	n, terms := len(f.spots), len(c)
	a, b := mat.NewDense(n+bows+1, terms+1, nil), mat.NewVecDense(n+bows+1, nil)
	for i, light := range f.smooth(c) {
		sum := light + add*laid[i]
		for k := range c {
			a.Set(i, k, f.terms.At(i, k)*light/sum)
		}
		a.Set(i, terms, laid[i]/sum)
		b.SetVec(i, logs[i]-math.Log(sum))
	}
	for k := range bows {
		a.Set(n+k, terms-bows+k, bowRidge)
		b.SetVec(n+k, -bowRidge*c[terms-bows+k])
	}
	a.Set(n+bows, terms, glareRidge)
	var x mat.VecDense
	if x.SolveVec(a, b) != nil {
		return nil, false
	}
	return x.RawVector().Data, true
}
