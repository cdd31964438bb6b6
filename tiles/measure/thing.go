package measure

import (
	"cmp"
	"math"
	"slices"

	"github.com/twodip/twodip/tiles/geometry"
)

// thing is one connected area of the search picture.
type thing struct {
	mask []bool
	size int // pixels, holes filled
}

// thing is the largest area that is not ground, weighed by how near it lies to
// the middle and how little it runs out of the picture.
func (s *search) thing() (thing, bool) {
	labels := make([]int32, len(s.other))
	best, bestScore := int32(0), 0.0
	for i, in := range s.other {
		if !in || labels[i] != 0 {
			continue
		}
		label := int32(i + 1)
		if score := s.score(s.flood(labels, i, label)); score > bestScore {
			best, bestScore = label, score
		}
	}
	if best == 0 {
		return thing{}, false
	}
	t := thing{mask: make([]bool, len(labels))}
	for i, l := range labels {
		t.mask[i] = l == best
	}
	s.fillHoles(&t)
	share := float64(t.size) / float64(len(s.lab))
	return t, share >= leastShare && share <= mostShare
}

// blob is what flooding finds out about an area.
type blob struct {
	size, edge int // pixels; pixels on the picture's edge
	sumX, sumY float64
}

// flood labels the area around a pixel.
func (s *search) flood(labels []int32, start int, label int32) (b blob) {
	stack := []int{start}
	labels[start] = label
	for len(stack) > 0 {
		i := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		x, y := i%s.w, i/s.w
		b.size++
		b.sumX, b.sumY = b.sumX+float64(x), b.sumY+float64(y)
		if x == 0 || y == 0 || x == s.w-1 || y == s.h-1 {
			b.edge++
		}
		for _, n := range s.neighbors(i) {
			if n >= 0 && s.other[n] && labels[n] == 0 {
				labels[n] = label
				stack = append(stack, n)
			}
		}
	}
	return b
}

// neighbors are the four pixels beside one; −1 outside the picture.
func (s *search) neighbors(i int) [4]int {
	n := [4]int{i - 1, i + 1, i - s.w, i + s.w}
	if i%s.w == 0 {
		n[0] = -1
	}
	if i%s.w == s.w-1 {
		n[1] = -1
	}
	if n[3] >= len(s.lab) {
		n[3] = -1
	}
	return n
}

func (s *search) score(b blob) float64 {
	n := float64(b.size)
	dx := b.sumX/n/float64(s.w) - 0.5
	dy := b.sumY/n/float64(s.h) - 0.5
	off := math.Hypot(dx, dy) // 0 in the middle, 0.7 in a corner
	cut := float64(b.edge) / math.Sqrt(n)
	return n * max(0, 1-1.5*off) / (1 + cut)
}

// fillHoles takes in what the area encloses: glare, a crack, a spot of the
// ground's own color.
func (s *search) fillHoles(t *thing) {
	outside := make([]bool, len(t.mask))
	var stack []int
	visit := func(i int) {
		if i >= 0 && !t.mask[i] && !outside[i] {
			outside[i] = true
			stack = append(stack, i)
		}
	}
	for i := range t.mask {
		if x, y := i%s.w, i/s.w; x == 0 || y == 0 || x == s.w-1 || y == s.h-1 {
			visit(i)
		}
	}
	for len(stack) > 0 {
		i := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		for _, n := range s.neighbors(i) {
			visit(n)
		}
	}
	for i := range t.mask {
		t.mask[i] = !outside[i]
		if t.mask[i] {
			t.size++
		}
	}
}

// hull is the convex hull of the area's pixels, taken at their corners
// (Andrew's monotone chain), clockwise on the screen.
func (t *thing) hull(width int) []geometry.Point {
	var pts []geometry.Point
	for y := 0; y < len(t.mask)/width; y++ {
		row := t.mask[y*width : (y+1)*width]
		first, last := slices.Index(row, true), width-1
		if first < 0 {
			continue
		}
		for !row[last] {
			last--
		}
		for _, x := range []int{first, last + 1} {
			pts = append(pts, geometry.Point{X: float64(x), Y: float64(y)}, geometry.Point{X: float64(x), Y: float64(y + 1)})
		}
	}
	slices.SortFunc(pts, func(a, b geometry.Point) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	half := func(pts []geometry.Point) []geometry.Point {
		var h []geometry.Point
		for _, p := range pts {
			for len(h) > 1 && turnOf(h[len(h)-2], h[len(h)-1], p) <= 0 {
				h = h[:len(h)-1]
			}
			h = append(h, p)
		}
		return h[:len(h)-1]
	}
	first := half(pts)
	slices.Reverse(pts)
	return append(first, half(pts)...)
}

func turnOf(a, b, c geometry.Point) float64 { return (b.X-a.X)*(c.Y-b.Y) - (b.Y-a.Y)*(c.X-b.X) }

// around is the smallest rectangle around a hull, turned as the thing lies but
// less than 45° from upright, and the share of it that the hull fills.
func around(hull []geometry.Point) (q geometry.Quad, fill float64) {
	least := math.Inf(1)
	for i, a := range hull {
		b := hull[(i+1)%len(hull)]
		angle := math.Atan2(b.Y-a.Y, b.X-a.X)
		angle -= math.Round(angle/(math.Pi/2)) * math.Pi / 2
		c, s := math.Cos(angle), math.Sin(angle)
		x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
		for _, p := range hull {
			x, y := p.X*c+p.Y*s, p.Y*c-p.X*s
			x0, x1, y0, y1 = min(x0, x), max(x1, x), min(y0, y), max(y1, y)
		}
		if area := (x1 - x0) * (y1 - y0); area < least {
			least = area
			for j, p := range geometry.Box(x0, y0, x1, y1) {
				q[j] = geometry.Point{X: p.X*c - p.Y*s, Y: p.X*s + p.Y*c}
			}
		}
	}
	return q, areaOf(hull) / least
}

// areaOf is what a closed line encloses (the shoelace formula).
func areaOf(line []geometry.Point) (area float64) {
	for i, a := range line {
		b := line[(i+1)%len(line)]
		area += (a.X*b.Y - b.X*a.Y) / 2
	}
	return math.Abs(area)
}
