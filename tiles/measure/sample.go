package measure

import (
	"math"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/geometry"
)

// sample is what a zone gives: a grid of cells over the zone, upright, each the
// mean linear light of the pixels kept in it.
type sample struct {
	w, h  int
	light [][3]float64
	count []float64 // blocks kept in the cell, each by its weight
	total int       // blocks in the zone
	kept  float64
	over  float64 // share of them in which a channel is blown
	shine shine

	dropped []int32 // the blocks that were not
}

// shine is what looks like glare in a zone.
type shine struct {
	light  [3]float64 // sum over its blocks
	blocks float64
	counts float64 // 0 = glare, left out; 1 = so much that it is a light part of the glaze
}

const (
	aboutCells     = 3000 // in a zone: enough to tell mottling, few enough to be quick
	blocksInCell   = 4    // at least, so that the camera's noise is gone
	glareOverQ3    = 1.5  // × the interquartile range above the upper quartile
	glareAtLeast   = 3.0  // L* above the upper quartile, where the tile is even
	glareChroma    = 0.35 // of the zone's middle chroma, below which light is glare
	glareChromaMax = 8.0  // chroma below which light is glare on a dull tile
	surelyGlare    = 0.08 // of the zone: so little is glare and left out,
	surelyGlaze    = 0.25 // so much is a light part of the glaze; between them it counts in part
)

// lightness of the darkest and of every block is counted in steps of 0.1.
const lightSteps = 10

// takeSample gathers the blocks of the zone's area of the face.
func (m *mosaic) takeSample(face *Face, a area, space *color.Matrix, light *level) sample {
	q := face.Quad.Part(a.u0, a.v0, a.u1, a.v1)
	forward := q.Projection()
	back := forward.Inverse()
	in := m.in[:0]
	part := m.blocksIn(q.Bounds())
	for y := part.Min.Y; y < part.Max.Y; y++ {
		for x := part.Min.X; x < part.Max.X; x++ {
			px, py := m.center(x, y)
			at := back.To(geometry.Point{X: px, Y: py})
			if !inUnitSquare(at) || face.Shape != nil && !face.Shape.has(px, py) {
				continue
			}
			in = append(in, placed{float32(at.X), float32(at.Y), int32(y*m.w + x)})
		}
	}
	m.in = in
	s := newSample(len(in), q)
	blown := m.blown
	if s.over = m.share(in, blown); s.over > mostBlown {
		blown = m.white
	}
	var glare []int
	glare, s.shine.counts = m.weigh(in, blown, space)
	for i, b := range in {
		x, y := m.center(int(b.block)%m.w, int(b.block)/m.w)
		if m.weight[i] > 0 {
			s.add(float64(b.u), float64(b.v), light.leveled(x, y, wide(m.light[b.block])), float64(m.weight[i]))
		}
		if m.weight[i] < 0.5 {
			s.dropped = append(s.dropped, b.block)
		}
	}
	for _, i := range glare {
		x, y := m.center(int(in[i].block)%m.w, int(in[i].block)/m.w)
		for k, v := range light.leveled(x, y, wide(m.light[in[i].block])) {
			s.shine.light[k] += v
		}
		s.shine.blocks++
	}
	s.total = len(in)
	return s
}

// mostBlown is the share of blown blocks beyond which it is not glare but the
// glaze itself that has a channel blown: what would be left of it is its
// shadows, so only white blocks are dropped, and the reading is warned about.
const mostBlown = 0.4

func (m *mosaic) share(in []placed, marked []bool) float64 {
	n := 0
	for _, b := range in {
		if marked[b.block] {
			n++
		}
	}
	return float64(n) / float64(max(1, len(in)))
}

// placed is a block at its place in a zone, 0–1 across and down.
type placed struct {
	u, v  float32
	block int32
}

// newSample makes a grid of about square cells for the number of blocks.
func newSample(blocks int, q geometry.Quad) sample {
	across := math.Hypot(q[1].X-q[0].X, q[1].Y-q[0].Y) + math.Hypot(q[2].X-q[3].X, q[2].Y-q[3].Y)
	down := math.Hypot(q[3].X-q[0].X, q[3].Y-q[0].Y) + math.Hypot(q[2].X-q[1].X, q[2].Y-q[1].Y)
	cells := float64(max(1, min(aboutCells, blocks/blocksInCell)))
	w := int(max(1, min(cells, math.Round(math.Sqrt(cells*across/max(down, 1e-9))))))
	h := int(max(1, math.Round(cells/float64(w))))
	return sample{w: w, h: h, light: make([][3]float64, w*h), count: make([]float64, w*h)}
}

func wide(light [3]float32) correct.RGB {
	return correct.RGB{float64(light[0]), float64(light[1]), float64(light[2])}
}

// add takes in a block's light, leveled, by a weight.
func (s *sample) add(u, v float64, light correct.RGB, weight float64) {
	at := min(s.h-1, int(v*float64(s.h)))*s.w + min(s.w-1, int(u*float64(s.w)))
	for c := range 3 {
		s.light[at][c] += weight * light[c]
	}
	s.count[at] += weight
	s.kept += weight
}

// keptShare is the share of the zone that was used, 0–1.
func (s *sample) keptShare() float64 {
	if s.total == 0 {
		return 0
	}
	return s.kept / float64(s.total)
}

// weigh says how much each block counts: nothing where it is blown; little or
// nothing where it is much lighter than the zone and of much less chroma, which
// shows the lamp and not the glaze, the more the more there are of them. Which
// blocks those are and how much they count comes back.
//
// There is no share from which glare is glaze: were they left out up to one and
// counted from there on, two copies of a photo that differ by a hair would be two
// colors.
func (m *mosaic) weigh(in []placed, blown []bool, space *color.Matrix) (glare []int, counts float64) {
	m.weight, m.lightness = zeroed(m.weight, len(in)), zeroed(m.lightness, len(in))
	keep, light := m.weight, m.lightness
	table := &lightness
	var steps [100*lightSteps + 1]int
	kept := 0
	for i, b := range in {
		if blown[b.block] {
			continue
		}
		l := m.light[b.block]
		y := space[1][0]*float64(l[0]) + space[1][1]*float64(l[1]) + space[1][2]*float64(l[2])
		light[i] = table[bin(math.Sqrt(min(1, max(0, y)))*lightnessSteps, len(table))]
		steps[bin(float64(light[i]*lightSteps), len(steps))]++
		keep[i] = 1
		kept++
	}
	q1, q3 := quantile(steps[:], kept/4), quantile(steps[:], kept*3/4)
	limit := float32(q3 + max(glareAtLeast, glareOverQ3*(q3-q1)))
	dull := m.dullness(in, keep, light, float32(q3), space)
	for i, b := range in {
		if keep[i] > 0 && light[i] > limit && m.chroma(int(b.block), space) < dull {
			glare = append(glare, i)
		}
	}
	share := float64(len(glare)) / float64(max(1, kept))
	counts = min(max((share-surelyGlare)/(surelyGlaze-surelyGlare), 0), 1)
	for _, i := range glare {
		keep[i] = float32(counts)
	}
	return glare, counts
}

// lightnessSteps is how finely L* is looked up by the square root of Y: within
// 0.03, which is enough to tell glare.
const lightnessSteps = 4096

var lightness = func() (t [lightnessSteps + 1]float32) {
	for i := range t {
		root := float64(i) / lightnessSteps
		t[i] = float32(color.XYZ{Y: root * root}.Lab().L)
	}
	return t
}()

// dullness is the chroma below which a light spot is glare: a share of the
// chroma that the zone has below its upper quartile of lightness.
func (m *mosaic) dullness(in []placed, keep []float32, light []float32, q3 float32, space *color.Matrix) float64 {
	var sum float64
	n := 0
	for i := 0; i < len(in); i += 1 + len(in)/2000 {
		if keep[i] > 0 && light[i] <= q3 {
			sum += m.chroma(int(in[i].block), space)
			n++
		}
	}
	return max(glareChromaMax, glareChroma*sum/float64(max(1, n)))
}

func (m *mosaic) chroma(block int, space *color.Matrix) float64 {
	l := m.light[block]
	x, y, z := space.Times(float64(l[0]), float64(l[1]), float64(l[2]))
	return color.XYZ{X: x, Y: y, Z: z}.Lab().Chroma()
}

// quantile is the lightness that rank blocks do not pass.
func quantile(counts []int, rank int) float64 {
	for step, n := range counts {
		if rank -= n; rank < 0 {
			return float64(step) / lightSteps
		}
	}
	return 100
}
