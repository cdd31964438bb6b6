// Package correct makes what a camera wrote into colors: from a reference of
// known patches in the same photo it takes out the camera's tone curve, the
// light's color and most of what the camera sees differently from an eye, and
// says how far to trust the result.
package correct

import (
	"fmt"

	"github.com/twodip/twodip/tiles/color"
)

// RGB is linear light in a photo's own RGB space, as its profile has it: 0 to
// 1 of what the file can hold.
type RGB [3]float64

// Seen is a patch of a reference with the light a photo gives for it.
type Seen struct {
	color.Patch
	RGB RGB
}

// Kind is what a correction stands on.
type Kind string

// The kinds, the most trusted first.
const (
	Chart  Kind = "chart"       // patches of many colors
	Grey   Kind = "grey"        // one grey or white, or several
	Camera Kind = "camera only" // nothing: the camera's own white balance
)

// Correction takes a photo's linear light to color. Its methods may be used
// from many goroutines.
type Correction struct {
	kind   Kind
	said   string
	space  color.Matrix
	curves [3]curve
	roots  roots
	doubt  float64
}

// XYZ is the color of linear light of the photo.
func (c *Correction) XYZ(rgb RGB) color.XYZ {
	for k := range rgb {
		rgb[k] = c.curves[k].at(rgb[k])
	}
	v := c.roots.apply(rgb)
	x, y, z := c.space.Times(v[0], v[1], v[2])
	return color.XYZ{X: x, Y: y, Z: z}
}

// Kind is what the correction stands on.
func (c *Correction) Kind() Kind { return c.kind }

// String says the correction in words: "none", "grey card", "3 greys",
// "24 patches".
func (c *Correction) String() string { return c.said }

// Doubt is ± ΔE00, about 95 %, of a color that the correction gives.
func (c *Correction) Doubt() float64 { return c.doubt }

// None takes the photo as its camera wrote it. space takes its linear light to
// XYZ D50.
func None(space color.Matrix) *Correction {
	return &Correction{
		kind: Camera, said: "none", space: space, doubt: cameraDoubt,
		curves: [3]curve{straight(1), straight(1), straight(1)}, roots: identity,
	}
}

// Fit makes the best correction the patches allow: a scale from one grey, a
// curve from several, a curve and a root-polynomial from a chart. space takes
// the photo's linear light to XYZ D50.
func Fit(seen []Seen, space color.Matrix) (*Correction, error) {
	if len(seen) == 0 {
		return nil, fmt.Errorf("no patch to correct from")
	}
	f := newFit(seen, space)
	c, err := f.solve(seen)
	if err != nil {
		return nil, err
	}
	return c, nil
}
