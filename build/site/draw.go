package site

import (
	"fmt"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// Order is the one drawing that says which glaze went first: an upright tile,
// 24 × 36 units, whose lower two thirds carry the first glaze and whose upper
// two thirds carry the second, so that they overlap in the middle. Lines lean
// one way for the first and the other way for the second, so that it reads
// without color.
type Order struct {
	Label string
	Bands []Band
	Hatch []string // paths
	Words []Word
}

// Band is one part of the drawn tile.
type Band struct {
	Class     string // second, overlap, first or bare
	Y, Height int
	Fill      string // its measured color; "" = not measured
}

// Word is "1st" or "2nd" beside its band.
type Word struct {
	Y    int
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
	s := "1st " + c.First
	if len(c.Second) > 0 {
		s += " → 2nd " + c.Second[0]
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
		return drawOrder(h.coats().String(), true, "", "", whole)
	}
	return drawOrder(h.coats().String(), false, fill[tiles.ZoneSecond], fill[tiles.ZoneOverlap], fill[tiles.ZoneFirst])
}

// drawOrder draws one or two coats; each color may be "".
func drawOrder(label string, single bool, second, overlap, first string) Order {
	if single {
		return Order{
			Label: label,
			Bands: []Band{{"bare", 1, 12, ""}, {"first", 13, 24, first}},
			Hatch: []string{lines(13, 37, -1)},
			Words: []Word{{34, "1st"}},
		}
	}
	return Order{
		Label: label,
		Bands: []Band{{"second", 1, 12, second}, {"overlap", 13, 12, overlap}, {"first", 25, 12, first}},
		Hatch: []string{lines(13, 37, -1), lines(1, 25, +1)},
		Words: []Word{{34, "1st"}, {11, "2nd"}},
	}
}

// lines is a path of slanting lines from top to bottom across the drawn tile,
// rising (-1) or falling (+1) to the right.
func lines(top, bottom, slope int) string {
	const left, right, step = 1, 25, 6
	var b strings.Builder
	for at := top - (right - left); at < bottom+(right-left); at += step {
		x1, y1, x2, y2 := clip(left, right, top, bottom, at, slope)
		if y1 != y2 {
			fmt.Fprintf(&b, "M%d %dL%d %d", x1, y1, x2, y2)
		}
	}
	return b.String()
}

// clip cuts the line that meets the left edge at y = at to the box; lines lean
// by 45°, so all corners are whole units.
func clip(left, right, top, bottom, at, slope int) (x1, y1, x2, y2 int) {
	x1, y1, x2, y2 = left, at, right, at+slope*(right-left)
	cut := func(x, y *int) {
		edge := min(max(*y, top), bottom)
		*x += (edge - *y) * slope
		*y = edge
	}
	cut(&x1, &y1)
	cut(&x2, &y2)
	return x1, y1, x2, y2
}
