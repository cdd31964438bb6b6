// Package mottle describes an area that is not one color: a glaze that breaks
// over edges, floats, runs or speckles.
package mottle

import "github.com/twodip/twodip/tiles/color"

// Area is a grid of cells over a tile's face, row by row from the top left,
// each the mean light (XYZ D50) of the pixels in it. A cell with Y below zero
// is left out: it lay outside the face, or its pixels were glare. Some
// thousands of cells tell all there is; each should hold enough pixels (16 and
// up) that the camera's noise is gone from it.
type Area struct {
	Width int // cells in a row
	Cells []color.XYZ
}

// Out marks a cell that is left out.
var Out = color.XYZ{Y: -1}

// used gives the cells that are not left out.
func (a Area) used() []color.XYZ {
	out := make([]color.XYZ, 0, len(a.Cells))
	for _, c := range a.Cells {
		if c.Y >= 0 {
			out = append(out, c)
		}
	}
	return out
}

// Mean is the area's color: the mean of its light.
func (a Area) Mean() color.Lab { return color.Mean(a.used()).Lab() }

// Spread is the mottling: the mean ΔE00 of the cells from the area's color. It
// is 0 for an area of one color, some 2 for a satin, 10 and more where a glaze
// breaks.
func (a Area) Spread() float64 {
	cells := a.used()
	if len(cells) == 0 {
		return 0
	}
	mean, sum := color.Mean(cells).Lab(), 0.0
	for _, c := range cells {
		sum += color.DE00(mean, c.Lab())
	}
	return sum / float64(len(cells))
}
