package demo

import (
	"math"

	"github.com/twodip/twodip/tiles"
)

// face is the clay of one tile and where its glazes reach. Lengths are mm from
// the tile's top left corner, v downward.
type face struct {
	shape  tiles.Shape
	pair   tiles.Pair
	first  []float32 // how deep below its line the first coat has run, by u
	second []float32
	foot   []float32
}

const (
	stepsPerMM = 8
	hole       = 2.7 // radius of the hanging hole
	holeDown   = 8.0 // its middle, from the top
	corner     = 3.0
	combs      = 5 // lines drawn into the clay, so that a glaze shows how it breaks
	combPitch  = 2.6
)

func newFace(s tiles.Shape, p tiles.Pair, m melt) *face {
	f := &face{shape: s, pair: p}
	under := lookOf(p.First)
	f.first = runs(s.Width, 0.5+under.flux, "first", p)
	f.second = runs(s.Width, m.run, "second", p)
	f.foot = runs(s.Width, 0.6+min(float32(s.Bare)*0.7, m.run*0.45+under.flux*2), "foot", p)
	return f
}

// runs is how far a coat has run, mm by u: a slow wave, and where the run is
// long a few rounded drips.
func runs(width float64, most float32, which string, p tiles.Pair) []float32 {
	r := chance(which, p.First, p.Second)
	out := make([]float32, int(width)*stepsPerMM+stepsPerMM)
	wave, phase := 6+8*r.Float64(), r.Float64()*7
	for i := range out {
		u := float64(i) / stepsPerMM
		out[i] = 0.35 * float32(math.Sin(u/wave*4+phase)+0.6*math.Sin(u/wave*9+2*phase))
	}
	if most < 2 {
		return out
	}
	for range 2 + r.IntN(3) {
		middle, wide, long := r.Float64()*width, 2.2+r.Float64()*3.2, float64(most)*(0.35+0.65*r.Float64())
		for i := range out {
			out[i] = max(out[i], float32(long*tongue((float64(i)/stepsPerMM-middle)/wide)))
		}
	}
	return out
}

// tongue is the outline of a drip: round at its end, drawn out at its root.
func tongue(x float64) float64 {
	return math.Exp(-math.Pow(math.Abs(x), 2.6) * 1.4)
}

func at(run []float32, u float32) float32 {
	i := int(u * stepsPerMM)
	return run[max(0, min(len(run)-1, i))]
}

// inside is how far a place is inside the clay, mm; below 0 it is outside.
func (f *face) inside(u, v float32) float32 {
	w, h := float32(f.shape.Width), float32(f.shape.Height)
	d := inRounded(u, v, w, h, corner)
	du, dv := u-w/2, v-holeDown
	if du > -6 && du < 6 && dv > -6 && dv < 6 {
		d = min(d, float32(math.Sqrt(float64(du*du+dv*dv)))-hole)
	}
	return d
}

// inRounded is the distance inside a rectangle with round corners.
func inRounded(u, v, w, h, r float32) float32 {
	qx, qy := abs(u-w/2)-w/2+r, abs(v-h/2)-h/2+r
	if qx > 0 && qy > 0 {
		return r - float32(math.Sqrt(float64(qx*qx+qy*qy)))
	}
	return r - max(qx, qy)
}

func abs(v float32) float32 {
	if v < 0 {
		return -v
	}
	return v
}

// firstCoat and secondCoat are how far a place is inside the coat, mm.
func (f *face) firstCoat(u, v float32) float32 {
	low := f.glazedTo(u) - v
	if f.pair.Single() {
		return low
	}
	switch f.shape.Layout {
	case tiles.LayoutEnds:
		line := float32(f.shape.Height - f.shape.Bare - f.shape.FirstDip)
		return min(low, v-line-at(f.first, u)*0.4)
	case tiles.LayoutSides:
		return min(low, float32(f.shape.FirstDip)-u+at(f.first, v*0.6)*0.5)
	}
	return low
}

func (f *face) secondCoat(u, v float32) float32 {
	if f.pair.Single() {
		return -99
	}
	low := f.glazedTo(u) - v
	switch f.shape.Layout {
	case tiles.LayoutEnds:
		return min(low, float32(f.shape.SecondDip)+at(f.second, u)-v)
	case tiles.LayoutSides:
		return min(low, u-float32(f.shape.Width-f.shape.SecondDip)+at(f.first, v*0.6)*0.5)
	}
	return low
}

// glazedTo is where the bare foot begins: what runs, runs over it.
func (f *face) glazedTo(u float32) float32 {
	return float32(f.shape.Height-f.shape.Bare) + at(f.foot, u)
}

// comb is the height of the lines drawn into the clay: 1 on a ridge, −1 in a
// groove, 0 on the flat. They cross every zone: down the right third, or, where
// the zones are lanes, across the lower third.
func (f *face) comb(u, v float32) float32 {
	across, along := u-float32(f.shape.Width)*0.80, v
	from, to := float32(15), float32(f.shape.Height-f.shape.Bare)-5
	if f.shape.Layout == tiles.LayoutSides {
		across, along = v-float32(f.shape.Height-f.shape.Bare)*0.72, u
		from, to = 4, float32(f.shape.Width)-4
	}
	x := across / combPitch
	if x < -combs/2.0 || x > combs/2.0 {
		return 0
	}
	fade := smooth(along, from, from+4) * (1 - smooth(along, to-4, to)) * smooth(combs/2.0-abs(x), 0, 0.5)
	if fade == 0 {
		return 0
	}
	return fade * ridges[int((x+combs)*ridgeSteps)%ridgeSteps]
}

// ridges is one line of the comb and the clay it pushed up, across its pitch.
const ridgeSteps = 64

var ridges = func() (out [ridgeSteps]float32) {
	for i := range out {
		out[i] = -float32(math.Cos(2 * math.Pi * float64(i) / ridgeSteps))
	}
	return out
}()

// zone says which zone a place is in, a margin inside it: an index of zones,
// or −1 between zones.
func (f *face) zone(first, second, margin float32) int {
	switch {
	case f.pair.Single():
		if first > margin {
			return 3
		}
	case first > margin && second > margin:
		return 1
	case first > margin && second < -margin:
		return 0
	case second > margin && first < -margin:
		return 2
	}
	return -1
}

var zones = [4]tiles.Zone{tiles.ZoneFirst, tiles.ZoneOverlap, tiles.ZoneSecond, tiles.ZoneWhole}
