package mark

// contour is the outline of a dark region as it walks around the cracks
// between pixels, dark on the right hand.
type contour struct {
	points         []crack
	x0, y0, x1, y1 int // bounding box
	area           int // twice the signed area; positive around a dark region
}

// crack is a corner between pixels: x, y of the pixel below and to the right.
type crack struct{ x, y int32 }

// Sizes of an outline worth looking at, pixels of the shrunk picture.
const (
	leastSide   = 12
	mostOutline = 12000
)

// outlines walks around every dark region of at least leastSide pixels and
// gives those whose outline could be a square's: hardly longer than that of
// their bounding box. bits has a zero border and is used up.
func outlines(bits []uint8, stride int, visit func(contour)) {
	const seen = 2
	points := make([]crack, 0, 4096)
	height := len(bits) / stride
	for y := 1; y < height-1; y++ {
		row := bits[y*stride:][:stride]
		for x := 1; x < stride-1; x++ {
			// The left side of a dark pixel that no walk has passed yet.
			if row[x]&1 == 0 || row[x]&seen != 0 || row[x-1]&1 != 0 {
				continue
			}
			c := walk(bits, stride, x, y, points[:0])
			points = c.points
			if plausible(c) {
				visit(c)
			}
		}
	}
}

func plausible(c contour) bool {
	w, h := c.x1-c.x0, c.y1-c.y0
	n := len(c.points)
	return c.area > 0 && w >= leastSide && h >= leastSide &&
		n < mostOutline && n <= 3*(w+h) && c.area/2 >= w*h/4
}

// walk follows the cracks from the left side of pixel (x, y) upwards, keeping
// dark on the right, and marks each left side it passes. Dark pixels that
// touch only by a corner are apart.
func walk(bits []uint8, stride, x, y int, points []crack) contour {
	const seen = 2
	c := contour{points: points, x0: x, y0: y, x1: x, y1: y}
	px, py, dx, dy := x, y+1, 0, -1
	for {
		if dy == -1 {
			bits[(py-1)*stride+px] |= seen
		}
		c.area += px*(py+dy) - (px+dx)*py
		px, py = px+dx, py+dy
		if len(c.points) < mostOutline {
			c.points = append(c.points, crack{int32(px - 1), int32(py - 1)})
		}
		c.x0, c.x1, c.y0, c.y1 = min(c.x0, px), max(c.x1, px), min(c.y0, py), max(c.y1, py)
		dx, dy = turn(bits, stride, px, py, dx, dy)
		if px == x && py == y+1 && dy == -1 {
			return c
		}
	}
}

// turn is where the crack goes on from corner (px, py): right where the pixel
// ahead on the right is light, left where both ahead are dark.
func turn(bits []uint8, stride, px, py, dx, dy int) (int, int) {
	// Pixels ahead: to the right and left of the direction of walking.
	rx, ry, lx, ly := px, py, px, py
	switch {
	case dx == 1:
		ly--
	case dx == -1:
		rx--
		ry--
		lx--
	case dy == 1:
		rx--
	default:
		ry--
		lx--
		ly--
	}
	if bits[ry*stride+rx]&1 == 0 {
		return -dy, dx
	}
	if bits[ly*stride+lx]&1 == 0 {
		return dx, dy
	}
	return dy, -dx
}
