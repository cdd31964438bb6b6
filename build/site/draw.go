package site

import (
	"fmt"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// Order is the one drawing that says which glaze went first: an upright tile,
// 24 × 36 units, whose lower two thirds carry the first glaze and whose upper
// two thirds carry the second, so that they overlap in the middle. On a wall
// dipped from the sides the first is the left two thirds, the second the right.
// Lines lean one way for the first and the other way for the second, so that
// it reads without color.
type Order struct {
	Label string
	Wide  int // of the drawing with its words
	Left  int // the tile's left edge
	Bands []Band
	Hatch []string // paths
	Words []Word
}

// Band is one part of the drawn tile: a band across it, or an upright lane.
type Band struct {
	Class               string // second, overlap, first or bare
	X, Y, Width, Height int
	Fill                string // its measured color; "" = not measured
}

// Word is "1st" or "2nd" beside its part.
type Word struct {
	X, Y int
	Text string
}

// Coats is a pair in words: template "coats" writes it with its arrow.
type Coats struct {
	First  string
	Second []string // none or one
	After  string   // "alone" or "again"
}

// String is the pair in one line, as the wall says it.
func (c Coats) String() string {
	s := "1st " + tiles.Apart(c.First)
	if len(c.Second) > 0 {
		s += " → 2nd " + tiles.Apart(c.Second[0])
	}
	if c.After != "" {
		s += " " + c.After
	}
	return s
}

// coats says a tile's pair by name.
func (h *hung) coats() Coats {
	switch {
	case h.Single():
		return Coats{First: h.first.Name, After: "alone"}
	case h.Double():
		return Coats{First: h.first.Name, Second: []string{h.second.Name}, After: "again"}
	}
	return Coats{First: h.first.Name, Second: []string{h.second.Name}}
}

// order draws a tile, with the measured color of each zone where there is one.
func (m *maker) order(h *hung) Order {
	fill := map[tiles.Zone]string{}
	for _, z := range m.zones(h) {
		hex, _ := z.lab.Hex()
		fill[z.Zone] = hex
	}
	if h.Single() {
		whole := fill[tiles.ZoneWhole]
		if whole == "" {
			whole = fill[tiles.ZoneFirst]
		}
		return m.drawOrder(h.coats().String(), true, "", "", whole)
	}
	return m.drawOrder(h.coats().String(), false, fill[tiles.ZoneSecond], fill[tiles.ZoneOverlap], fill[tiles.ZoneFirst])
}

// sample is the drawing of any pair, with where its coats lie in words.
func (m *maker) sample() Order {
	if m.lanes() {
		return m.drawOrder("1st at the left, 2nd over it from the right", false, "", "", "")
	}
	return m.drawOrder("1st at the bottom, 2nd over it", false, "", "", "")
}

// lanes says that the wall's tiles are dipped from their sides.
func (m *maker) lanes() bool { return m.Wall.Settings.Tile.Layout == tiles.LayoutSides }

// drawOrder draws one or two coats as the wall's tiles are dipped; each color
// may be "".
func (m *maker) drawOrder(label string, single bool, second, overlap, first string) Order {
	if m.lanes() {
		return drawLanes(label, single, second, overlap, first)
	}
	return drawBands(label, single, second, overlap, first)
}

func drawBands(label string, single bool, second, overlap, first string) Order {
	if single {
		return Order{
			Label: label, Wide: 54, Left: 1,
			Bands: []Band{{"first", 1, 1, 24, 36, first}},
			Hatch: []string{lines(box{1, 1, 25, 37}, -1)},
			Words: []Word{{29, 23, "1st"}},
		}
	}
	return Order{
		Label: label, Wide: 54, Left: 1,
		Bands: []Band{{"second", 1, 1, 24, 12, second}, {"overlap", 1, 13, 24, 12, overlap}, {"first", 1, 25, 24, 12, first}},
		Hatch: []string{lines(box{1, 13, 25, 37}, -1), lines(box{1, 1, 25, 25}, +1)},
		Words: []Word{{29, 34, "1st"}, {29, 11, "2nd"}},
	}
}

func drawLanes(label string, single bool, second, overlap, first string) Order {
	if single {
		return Order{
			Label: label, Wide: 64, Left: 18,
			Bands: []Band{{"first", 18, 1, 24, 36, first}},
			Hatch: []string{lines(box{18, 1, 42, 37}, -1)},
			Words: []Word{{0, 23, "1st"}},
		}
	}
	return Order{
		Label: label, Wide: 64, Left: 18,
		Bands: []Band{{"first", 18, 1, 8, 36, first}, {"overlap", 26, 1, 8, 36, overlap}, {"second", 34, 1, 8, 36, second}},
		Hatch: []string{lines(box{18, 1, 34, 37}, -1), lines(box{26, 1, 42, 37}, +1)},
		Words: []Word{{0, 23, "1st"}, {45, 23, "2nd"}},
	}
}

// box is a part of the drawing that is lined.
type box struct{ left, top, right, bottom int }

// lines is a path of slanting lines across a box, rising (-1) or falling (+1)
// to the right.
func lines(b box, slope int) string {
	const step = 6
	var path strings.Builder
	wide := b.right - b.left
	for at := b.top - wide; at < b.bottom+wide; at += step {
		x1, y1, x2, y2 := b.clip(at, slope)
		if y1 != y2 {
			fmt.Fprintf(&path, "M%d %dL%d %d", x1, y1, x2, y2)
		}
	}
	return path.String()
}

// clip cuts the line that meets the left edge at y = at to the box; lines lean
// by 45°, so all corners are whole units.
func (b box) clip(at, slope int) (x1, y1, x2, y2 int) {
	x1, y1, x2, y2 = b.left, at, b.right, at+slope*(b.right-b.left)
	cut := func(x, y *int) {
		edge := min(max(*y, b.top), b.bottom)
		*x += (edge - *y) * slope
		*y = edge
	}
	cut(&x1, &y1)
	cut(&x2, &y2)
	return x1, y1, x2, y2
}
