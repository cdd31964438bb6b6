package measure

import (
	"fmt"
	"image"
	"math"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/photo"
)

// searchSize is the longer side, in pixels, of the picture in which a tile is
// looked for; the inset makes up for its coarseness.
const searchSize = 240

// Bounds on what can be a tile in its own photo.
const (
	leastShare  = 0.04 // of the picture
	mostShare   = 0.92
	leastFill   = 0.92 // of the rectangle around it by its hull, to count as four-sided
	leastDense  = 0.7  // of its hull: less of a tile may be unlike its ground
	mostStretch = 0.3  // of the tile's shape by perspective: e to it is 1.35
)

// limits are the distances from the ground tried, in ΔE: the first keep
// shadows out, the last find a tile hardly unlike its ground.
var limits = []float64{18, 13, 9, 6.5}

// outline finds the tile against its ground: the largest thing, near the
// middle, that differs from what lies along the edges of the picture, and of
// several ways to draw the line the one that gives a shape most like the
// wall's tile. What lies besides the tile is passed over. ok is false where
// nothing stands out.
func outline(p *photo.Photo, small photo.Small, shape tiles.Shape, besides []geometry.Quad) (f Face, ok bool) {
	s := newSearch(small.Small(searchSize))
	ground, ok := s.ground()
	if !ok {
		return f, false
	}
	best := candidate{likeness: -1}
	distance := s.distances(&ground)
	scale := float64(p.Width()) / float64(s.w)
	for _, q := range besides {
		s.passOver(distance, q, scale)
	}
	for _, limit := range limits {
		if limit < 3*ground.noise {
			break
		}
		s.separate(distance, limit)
		if thing, ok := s.thing(); ok {
			if c := newCandidate(thing, s.w, shape); c.likeness > best.likeness+0.01 {
				best = c
			}
		}
	}
	if best.likeness < 0 {
		return f, false
	}
	f, ok = best.face(scale, s.w, shape)
	if f.Warning == "" && s.shadowed(&ground, best.corners) > mostShadow {
		f.Warning = "a hard shadow lies in the picture, so the light on the tile may be uneven: use softer light"
	}
	return f, ok
}

// candidate is a thing that may be the tile.
type candidate struct {
	thing
	corners  geometry.Quad
	fill     float64 // share of the rectangle around it that its hull fills
	dense    float64 // share of the hull that it fills itself
	stretch  float64 // how many times longer or wider than the tile, as a logarithm
	likeness float64
}

func newCandidate(t thing, width int, shape tiles.Shape) candidate {
	c := candidate{thing: t}
	hull := t.hull(width)
	c.corners, c.fill = around(hull)
	c.dense = float64(t.size) / areaOf(hull)
	if shape.Width > 0 && shape.Height > 0 {
		w := math.Hypot(c.corners[1].X-c.corners[0].X, c.corners[1].Y-c.corners[0].Y)
		h := math.Hypot(c.corners[3].X-c.corners[0].X, c.corners[3].Y-c.corners[0].Y)
		c.stretch = math.Abs(math.Log(w / h * shape.Height / shape.Width))
	}
	c.likeness = max(0, c.fill*c.dense-c.stretch/2)
	return c
}

// face brings the candidate to the photo's pixels.
func (c *candidate) face(scale float64, width int, shape tiles.Shape) (f Face, ok bool) {
	f = Face{Found: FoundOutline}
	for i, p := range c.corners {
		f.Quad[i] = geometry.Point{X: p.X * scale, Y: p.Y * scale}
	}
	switch {
	case c.fill < leastFill || c.dense < leastDense:
		f.Shape = &Mask{In: c.mask, Width: width, Scale: scale}
		f.Warning = "what was found is not four-sided, so it was read as one area"
		f.Middle = true
		f.Shape.shrink(int(inset * math.Sqrt(float64(c.size)) / 2))
	case c.stretch > mostStretch:
		f.Warning = fmt.Sprintf("what was found is not shaped like the wall's tile of %g by %g mm", shape.Width, shape.Height)
	}
	return f, f.Quad.Convex()
}

// middle is the middle of the picture, taken where nothing was found.
func middle(p *photo.Photo) Face {
	w, h := float64(p.Width()), float64(p.Height())
	return Face{
		Quad:   geometry.Box(0.3*w, 0.4*h, 0.7*w, 0.6*h),
		Found:  FoundMiddle,
		Middle: true,
	}
}

// search is the small picture in Lab, and what was made of it.
type search struct {
	w, h  int
	lab   []color.Lab
	other []bool
}

func newSearch(small photo.Small) *search {
	b := small.Bounds()
	s := &search{w: b.Dx(), h: b.Dy()}
	s.lab = make([]color.Lab, 0, s.w*s.h)
	for y := range s.h {
		for x := range s.w {
			r, g, b, _ := small.At(x, y).RGBA()
			s.lab = append(s.lab, color.FromSRGB(uint8(r>>8), uint8(g>>8), uint8(b>>8)))
		}
	}
	return s
}

// ground is the color of what a tile lies on, as it changes over the picture.
type ground struct {
	plane [3][3]float64 // L, a, b: constant, per x, per y (0–1)
	noise float64       // middle distance of the ground itself
}

func (g *ground) at(x, y float64) color.Lab {
	v := [3]float64{}
	for i, p := range g.plane {
		v[i] = p[0] + p[1]*x + p[2]*y
	}
	return color.Lab{L: v[0], A: v[1], B: v[2]}
}

// apart is how far a color is from the ground. Darker than the ground counts
// half: that may be the tile's shadow.
func apart(c, ground color.Lab) float64 {
	l := c.L - ground.L
	if l < 0 {
		l /= 2
	}
	return math.Sqrt(l*l + (c.A-ground.A)*(c.A-ground.A) + (c.B-ground.B)*(c.B-ground.B))
}

// ground fits a plane to the colors along the edges of the picture, three
// times, each time to the half that fits best: a hand, a label or a tile that
// reaches the edge does not matter then. ok is false where the edges are of
// too many colors to be a ground.
func (s *search) ground() (g ground, ok bool) {
	band := max(2, min(s.w, s.h)/20)
	var edge []int
	for i := range s.lab {
		x, y := i%s.w, i/s.w
		if x < band || y < band || x >= s.w-band || y >= s.h-band {
			edge = append(edge, i)
		}
	}
	use := edge
	for range 4 {
		g.fit(s, use)
		g.noise = s.medianApart(&g, edge)
		use = use[:0:0]
		for _, i := range edge {
			if s.fromGround(&g, i) <= 1.5*g.noise+0.5 {
				use = append(use, i)
			}
		}
		if len(use) < len(edge)/5 {
			return g, false
		}
	}
	return g, g.noise < 8 && len(use) > len(edge)*2/5
}

func (s *search) place(i int) (x, y float64) {
	return float64(i%s.w) / float64(s.w), float64(i/s.w) / float64(s.h)
}

func (s *search) fromGround(g *ground, i int) float64 {
	x, y := s.place(i)
	return apart(s.lab[i], g.at(x, y))
}

func (s *search) medianApart(g *ground, of []int) float64 {
	var counts [1000]int
	for _, i := range of {
		counts[bin(s.fromGround(g, i)*10, len(counts))]++
	}
	return quantile(counts[:], len(of)/2)
}

// fit is the least-squares plane through the pixels, channel by channel.
func (g *ground) fit(s *search, use []int) {
	var m color.Matrix
	var right [3][3]float64
	for _, i := range use {
		x, y := s.place(i)
		row, c := [3]float64{1, x, y}, s.lab[i]
		for j := range row {
			for k := range row {
				m[j][k] += row[j] * row[k]
			}
			right[0][j] += row[j] * c.L
			right[1][j] += row[j] * c.A
			right[2][j] += row[j] * c.B
		}
	}
	inverse := m.Inverse()
	for c := range right {
		g.plane[c][0], g.plane[c][1], g.plane[c][2] = inverse.Times(right[c][0], right[c][1], right[c][2])
	}
}

func (s *search) distances(g *ground) []float64 {
	out := make([]float64, len(s.lab))
	for i := range out {
		out[i] = s.fromGround(g, i)
	}
	return out
}

// passOver makes what lies in a quad of the photo count as ground.
func (s *search) passOver(distance []float64, q geometry.Quad, scale float64) {
	forward := q.Projection()
	back := forward.Inverse()
	for i := range distance {
		at := back.To(geometry.Point{X: (float64(i%s.w) + 0.5) * scale, Y: (float64(i/s.w) + 0.5) * scale})
		if at.X >= 0 && at.Y >= 0 && at.X <= 1 && at.Y <= 1 {
			distance[i] = 0
		}
	}
}

// separate marks what is further from the ground than the limit.
func (s *search) separate(distance []float64, limit float64) {
	s.other = make([]bool, len(distance))
	for i, d := range distance {
		s.other[i] = d > limit
	}
	s.other = s.smooth(s.smooth(s.other))
}

// smooth takes the majority of each pixel's nine neighbors.
func (s *search) smooth(in []bool) []bool {
	out := make([]bool, len(in))
	for y := range s.h {
		for x := range s.w {
			n, of := 0, 0
			for dy := -1; dy <= 1; dy++ {
				for dx := -1; dx <= 1; dx++ {
					if (image.Point{X: x + dx, Y: y + dy}).In(image.Rect(0, 0, s.w, s.h)) {
						of++
						if in[(y+dy)*s.w+x+dx] {
							n++
						}
					}
				}
			}
			out[y*s.w+x] = 2*n > of
		}
	}
	return out
}
