package plan

import (
	"math"

	"github.com/twodip/twodip/tiles"
)

// box is an upright rectangle on a shelf, in mm from its left and front edge.
type box struct{ x0, y0, x1, y1 float64 }

func around(x, y, width, depth float64) box {
	return box{x - width/2, y - depth/2, x + width/2, y + depth/2}
}

func (b box) overlaps(c box) bool {
	const touch = 0.2 // places are kept to 0.1 mm
	return b.x0 < c.x1-touch && c.x0 < b.x1-touch && b.y0 < c.y1-touch && c.y0 < b.y1-touch
}

// footprint is what a tile and the room it needs cover on a shelf.
type footprint struct {
	width, depth float64 // of the tile itself
	slab         float64 // a waste slab's rim, 0 = none
	margin       float64 // free all round, the slab's rim counted
}

func (f footprint) outer() (width, depth float64) {
	return f.width + 2*f.margin, f.depth + 2*f.margin
}

// betweenSlabs is what stays free between two waste slabs, mm: fingers and a
// slab that warps (common practice, no source).
const betweenSlabs = 4.0

// footprintOf is a tile's footprint: its foot where it stands, its face where
// it lies. Half the gap belongs to each of two neighbors; a runny tile has at
// least the rim of its waste slab.
func footprintOf(s tiles.Settings, runny bool) footprint {
	f := footprint{width: s.Tile.Width, depth: s.Tile.Height, margin: s.Kiln.Gap / 2}
	if s.Kiln.Upright {
		f.depth = max(s.Tile.Foot, s.Tile.Thickness)
	}
	if runny {
		f.slab = s.Kiln.Tray
		f.margin = max(f.margin, f.slab+betweenSlabs/2)
	}
	return f
}

// span is the widest stretch of x such that all of it lies on the shelf for
// every y from y0 to y1; ok is false where there is none.
func span(s tiles.Shelf, y0, y1 float64) (lo, hi float64, ok bool) {
	depth := depthOf(s)
	if y0 < 0 || y1 > depth {
		return 0, 0, false
	}
	half := s.Width / 2
	switch s.Shape {
	case "round":
		half *= min(chord(1-2*y0/depth), chord(1-2*y1/depth))
	case "half-round": // the straight edge is in front
		half *= chord(y1 / depth)
	}
	return s.Width/2 - half, s.Width/2 + half, half > 0
}

// chord is half the width of the unit circle at height t.
func chord(t float64) float64 { return math.Sqrt(max(0, 1-t*t)) }

// depthOf is the shelf's depth; a round shelf is as deep as wide and a half
// one half as deep where nothing else is said.
func depthOf(s tiles.Shelf) float64 {
	switch {
	case s.Depth > 0:
		return s.Depth
	case s.Shape == "half-round":
		return s.Width / 2
	}
	return s.Width
}

// holds says whether the box lies on the shelf.
func (b box) on(s tiles.Shelf) bool {
	const touch = 0.2
	lo, hi, ok := span(s, max(0, b.y0), min(depthOf(s), b.y1))
	return ok && b.y0 >= -touch && b.y1 <= depthOf(s)+touch && b.x0 >= lo-touch && b.x1 <= hi+touch
}

// posts stands three posts of the side on the shelf, as far out as they go:
// two in front, one behind. Three legs do not wobble (common practice).
func posts(s tiles.Shelf, side float64) []Post {
	depth := depthOf(s)
	if side <= 0 || side > s.Width/2 || side > depth/2 {
		return nil
	}
	front := side / 2
	if s.Shape == "round" {
		front = depth * (1 - math.Sin(math.Pi/6)) / 2 // 30° below the middle: three posts 120° apart
	}
	back := depth - side/2
	for back > 0 && !around(s.Width/2, back, side, side).on(s) {
		back--
	}
	lo, hi, ok := span(s, front-side/2, front+side/2)
	if !ok {
		return nil
	}
	return []Post{{lo + side/2, front, side}, {hi - side/2, front, side}, {s.Width / 2, back, side}}
}

// postHeights are the heights kiln posts are sold in, in mm (common practice,
// no source).
var postHeights = []float64{12, 25, 50, 75, 100, 125, 150, 200}

// Headroom is what stays free above the tallest tile, in mm (common practice).
const Headroom = 12

// clearance is the post a shelf needs: the tile's height and its headroom,
// rounded up to a post; taller tiles need posts stacked on one another.
func clearance(s tiles.Settings) float64 {
	need := s.Tile.Thickness + Headroom
	if s.Kiln.Upright {
		need = s.Tile.Height + Headroom
	}
	tallest := postHeights[len(postHeights)-1]
	stacked := math.Floor(need/tallest) * tallest
	for _, p := range postHeights {
		if stacked+p >= need {
			return stacked + p
		}
	}
	return need
}
