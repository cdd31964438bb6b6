package mark

import (
	"math"

	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/target"
)

// A tile is laid down by hand, so it lies a little off its printed outline and
// turned. It is looked for this far around it.
const (
	mostShift  = 8.0  // mm: more than the room that is printed around it
	mostTurn   = 8.0  // degrees
	mostResize = 1.5  // mm by which its size may differ from the settings
	sampleStep = 0.5  // mm between the samples of the search
	edgeReach  = 0.75 // mm on each side of an edge that are compared
	leastStep  = 0.02 // least step of light, of 1, that counts as an edge
)

// layer is the luma of a picture, or one of its two differences of color, which
// are often of half the size.
type layer struct {
	Plane
	scale  float64 // of its pixels to the luma's
	weight float64 // of its steps to the luma's
}

// layers is what edges are looked for in.
type layers []layer

// tinted is how much a step of tint counts: the light falls off and throws
// shadows, and neither has a color.
const tintWeight = 2.0

func lookAt(luma Plane, tint []Plane) layers {
	out := layers{{luma, 1, 1}}
	for _, p := range tint {
		out = append(out, layer{p, float64(p.W) / float64(luma.W), tintWeight})
	}
	return out
}

// laid is an outline as it lies: its middle, its size and its turn to the right.
type laid struct {
	x, y, w, h, turn float64
}

// corners runs from its own top left clockwise.
func (l laid) corners() [4]geometry.Point {
	s, c := math.Sincos(l.turn * math.Pi / 180)
	var out [4]geometry.Point
	for i, k := range [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		dx, dy := k[0]*l.w/2, k[1]*l.h/2
		out[i] = geometry.Point{X: l.x + dx*c - dy*s, Y: l.y + dx*s + dy*c}
	}
	return out
}

// settle finds the edges of the tile's face, thick mm over the page, near the
// printed outline: steps of light and of tint alike. ok is false where none
// show: a tile of the paper's color.
func (l layers) settle(v *View, r target.Rect, thick float64) (best laid, ok bool) {
	nominal := laid{x: r.X + r.W/2, y: r.Y + r.H/2, w: r.W, h: r.H}
	most := 0.0
	for turn := -mostTurn; turn <= mostTurn; turn++ {
		try := nominal
		try.turn = turn
		if s := l.slide(v, &try, thick); s > most {
			best, most = try, s
		}
	}
	if most == 0 {
		return nominal, false
	}
	fine := best
	for turn := best.turn - 0.75; turn <= best.turn+0.75; turn += 0.25 {
		try := nominal
		try.turn = turn
		if s := l.slide(v, &try, thick); s > most {
			fine, most = try, s
		}
	}
	return fine, true
}

// slide moves and sizes an outline of a given turn so that its sides lie on
// the strongest edges, and says how strong they are together; 0 where a side
// shows none.
func (p layers) slide(v *View, l *laid, thick float64) float64 {
	reachX, reachY := l.w/2+mostShift+2*edgeReach, l.h/2+mostShift+2*edgeReach
	nx, ny := int(2*reachX/sampleStep), int(2*reachY/sampleStep)
	s, c := math.Sincos(l.turn * math.Pi / 180)
	across, down := blank(len(p), nx), blank(len(p), ny)
	var countX, countY float64
	for j := range ny {
		y := (float64(j)+0.5)*sampleStep - reachY
		for i := range nx {
			x := (float64(i)+0.5)*sampleStep - reachX
			inX, inY := math.Abs(x) < 0.38*l.w, math.Abs(y) < 0.38*l.h
			if !inX && !inY {
				continue // near the corners a side ends
			}
			seen := v.See(l.x+x*c-y*s, l.y+x*s+y*c, thick)
			for k, layer := range p {
				light := layer.at(seen.Times(layer.scale), coded) * layer.weight
				if inY {
					across[k][i] += light
				}
				if inX {
					down[k][j] += light
				}
			}
		}
		if math.Abs(y) < 0.38*l.h {
			countY++
		}
	}
	for i := range nx {
		if x := (float64(i)+0.5)*sampleStep - reachX; math.Abs(x) < 0.38*l.w {
			countX++
		}
	}
	lean := func(u, w float64) geometry.Point { // beside the middle, in the outline's own directions
		at := v.lean(geometry.Point{X: l.x + u*c - w*s, Y: l.y + u*s + w*c}, thick)
		return geometry.Point{X: at.X*c + at.Y*s, Y: at.Y*c - at.X*s}
	}
	left, right, a := sides(across, countY, l.w, lean(-l.w/2, 0).X, lean(l.w/2, 0).X)
	top, bottom, b := sides(down, countX, l.h, lean(0, -l.h/2).Y, lean(0, l.h/2).Y)
	if a == 0 || b == 0 {
		return 0
	}
	mx, my := (left+right)/2-reachX, (top+bottom)/2-reachY
	l.x, l.y = l.x+mx*c-my*s, l.y+mx*s+my*c
	l.w, l.h = right-left, bottom-top
	return a + b
}

func blank(layers, n int) [][]float64 {
	out := make([][]float64, layers)
	for k := range out {
		out[k] = make([]float64, n)
	}
	return out
}

// lean is how far the foot of a thing thick mm high is seen beside its top, mm
// on the plane of the top: toward where the camera stands.
func (v *View) lean(at geometry.Point, thick float64) geometry.Point {
	var c [3]float64 // the camera's place on the ground
	for i := range c {
		c[i] = -(v.turn[i]*v.shift[0] + v.turn[3+i]*v.shift[1] + v.turn[6+i]*v.shift[2])
	}
	if c[2] >= -thick {
		return geometry.Point{}
	}
	return geometry.Point{X: c[0], Y: c[1]}.Minus(at).Times(thick / -c[2])
}

// sides finds two edges about size apart in sums of light over n samples each,
// and their strength together; a size that differs counts against them. leanLo and
// leanHi are how far the foot is seen beside the top at either side: where it is
// seen beyond the face, the face ends in an edge to its own flank, and the flank in
// one to the paper.
func sides(sums [][]float64, n, size, leanLo, leanHi float64) (lo, hi, strength float64) {
	edge := edges(sums, n)
	first, last := rim{edge, min(leanLo, 0)}, rim{edge, max(leanHi, 0)}
	most := min(int((mostShift*2+2*edgeReach+mostResize)/sampleStep), len(edge)/3) // the middle is the glaze's own
	for i := range most {
		a := first.at(i)
		if a < leastStep {
			continue
		}
		for j := i + int((size-mostResize)/sampleStep); j < len(edge) && float64(j-i)*sampleStep <= size+mostResize; j++ {
			b := last.at(j)
			if b < leastStep {
				continue
			}
			s := min(a, b) + 0.3*math.Sqrt(a*b) - 0.04*math.Abs(float64(j-i)*sampleStep-size)
			if s > strength {
				lo, hi, strength = float64(i)*sampleStep, float64(j)*sampleStep, s
			}
		}
	}
	return first.finer(lo), last.finer(hi), strength
}

// rim is a side of the face among the edges: where the camera stands on that side,
// the flank is seen beyond it, and its foot lies lean mm further.
type rim struct {
	edge []float64
	lean float64
}

// leastLean is from where on the two edges of a flank are told apart, mm.
const leastLean = 0.75

// at is how much like a side of the face a place is. The flank's edge to the paper
// is there whatever the glaze; that to the face is not where the glaze is as dark
// as the flank.
func (r rim) at(i int) float64 {
	e := r.edge[i]
	if math.Abs(r.lean) < leastLean {
		return e
	}
	foot := r.foot(i)
	return max(e, foot) + min(e, foot)/2
}

// foot is the edge where the foot of a side would be, between samples.
func (r rim) foot(i int) float64 {
	x := float64(i) + r.lean/sampleStep
	k := int(math.Floor(x))
	if k < 0 || k+1 >= len(r.edge) {
		return 0
	}
	f := x - float64(k)
	return r.edge[k]*(1-f) + r.edge[k+1]*f
}

// finer is where a side lies between samples: by its own edge or, where that of the
// flank to the paper is much the stronger, by the flank.
func (r rim) finer(at float64) float64 {
	i := int(at/sampleStep + 0.5)
	if math.Abs(r.lean) >= leastLean && r.foot(i) > 2*r.edge[i] {
		foot := max(int((at+r.lean)/sampleStep+0.5), 1)
		for k := foot - 1; k <= foot+1 && k+1 < len(r.edge); k++ {
			if r.edge[k] > r.edge[foot] {
				foot = k
			}
		}
		return finer(r.edge, float64(foot)*sampleStep) - r.lean
	}
	return finer(r.edge, at)
}

// finer is the top of the parabola through an edge and its two neighbors, where
// it is the strongest of the three.
func finer(edge []float64, at float64) float64 {
	i := int(at/sampleStep + 0.5)
	if i < 1 || i+1 >= len(edge) || edge[i] < edge[i-1] || edge[i] < edge[i+1] {
		return at
	}
	bend := edge[i-1] - 2*edge[i] + edge[i+1]
	if bend == 0 {
		return at
	}
	return at + sampleStep*(edge[i-1]-edge[i+1])/(2*bend)
}

// edges is the step at each place between samples, over all layers together.
func edges(sums [][]float64, n float64) []float64 {
	k := int(edgeReach/sampleStep + 0.5)
	edge := make([]float64, len(sums[0])+1)
	for _, layer := range sums {
		for i := 2 * k; i+2*k <= len(layer); i++ {
			before, after := 0.0, 0.0
			for d := range k {
				before += layer[i-1-d]
				after += layer[i+d]
			}
			edge[i] = math.Hypot(edge[i], (after-before)/(n*float64(k)))
		}
	}
	return edge
}
