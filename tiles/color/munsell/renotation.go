package munsell

import (
	_ "embed"
	"math"
	"strconv"
	"strings"
	"sync"
)

// The published renotation; how to remake it stands in tables/make.go.
//
//go:embed tables/renotation.txt
var renotationText string

type point struct{ x, y float64 }

func (p point) plus(q point) point    { return point{p.x + q.x, p.y + q.y} }
func (p point) minus(q point) point   { return point{p.x - q.x, p.y - q.y} }
func (p point) times(k float64) point { return point{p.x * k, p.y * k} }
func mix(p, q point, t float64) point { return p.plus(q.minus(p).times(t)) }
func cross(p, q point) float64        { return p.x*q.y - p.y*q.x }
func (p point) length() float64       { return math.Hypot(p.x, p.y) }

const (
	hues = 40  // rays in a plane
	step = 2.5 // of hue, from one ray to the next
	ring = 2.0 // of chroma, from one chip to the next
)

// white is illuminant C, 2° observer: the foot of every ray. Source: CIE
// 15:2004, table T.3.
var white = point{0.31006, 0.31616}

// plane is one value's chips: for each ray the chromaticities at chroma 0, 2,
// 4, …; ray i has the hue 2.5 i.
type plane struct {
	value float64
	rays  [hues][]point
	way   [hues]point // where each ray points, length 1
}

var planes = sync.OnceValue(readPlanes)

func readPlanes() (out []plane) {
	for line := range strings.Lines(renotationText) {
		fields := strings.Fields(line)
		value := must(strconv.ParseFloat(fields[0], 64))
		if len(out) == 0 || out[len(out)-1].value != value {
			out = append(out, plane{value: value})
		}
		hue := must(ParseHue(fields[1]))
		ray := []point{white}
		for i := 2; i < len(fields); i += 2 {
			x := must(strconv.ParseFloat(fields[i], 64))
			y := must(strconv.ParseFloat(fields[i+1], 64))
			ray = append(ray, point{x / 1e4, y / 1e4})
		}
		p, i := &out[len(out)-1], int(hue/step)
		p.rays[i] = ray
		to := p.chip(i, 3).minus(white)
		p.way[i] = to.times(1 / to.length())
	}
	return out
}

// must is for the embedded tables alone, which a test reads whole.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// chip is the chromaticity of the i-th chip on a ray; past the last one the
// ray goes on straight.
func (p *plane) chip(ray, i int) point {
	chips := p.rays[(ray+hues)%hues]
	last := len(chips) - 1
	if i <= last {
		return chips[i]
	}
	slope := chips[last].minus(chips[last-1])
	return chips[last].plus(slope.times(float64(i - last)))
}

// leaf is the renotation at one value: two planes and how far between them.
type leaf struct {
	low, high *plane
	share     float64
}

// leafAt finds the planes about a value. Chromaticity is taken straight from
// one plane to the next; the first and the last plane hold beyond their ends.
func leafAt(value float64) leaf {
	planes := planes()
	last := len(planes) - 1
	if value >= planes[last].value {
		return leaf{&planes[last], &planes[last], 0}
	}
	for i := last - 1; i >= 0; i-- {
		if low := &planes[i]; value >= low.value {
			high := &planes[i+1]
			return leaf{low, high, (value - low.value) / (high.value - low.value)}
		}
	}
	return leaf{&planes[0], &planes[0], 0}
}

func (l leaf) chip(ray, i int) point {
	return mix(l.low.chip(ray, i), l.high.chip(ray, i), l.share)
}
