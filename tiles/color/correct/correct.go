// Package correct makes what a camera wrote into colors: from a reference of
// known patches in the same photo it takes out the camera's tone curve, the
// light's color and most of what the camera sees differently from an eye, and
// says how far to trust the result.
package correct

import (
	"errors"
	"fmt"
	"slices"

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
	rest   rest
	trust  trust
	struck []string
}

// XYZ is the color of linear light of the photo.
func (c *Correction) XYZ(rgb RGB) color.XYZ {
	v := c.roots.apply(c.straighten(rgb))
	x, y, z := c.space.Times(v[0], v[1], v[2])
	out := color.XYZ{X: x, Y: y, Z: z}
	if len(c.rest.weight) == 0 {
		return out
	}
	return c.rest.takenFrom(out.Lab()).XYZ()
}

// straighten takes the camera's tone curve and white balance out.
func (c *Correction) straighten(rgb RGB) RGB {
	for k := range rgb {
		rgb[k] = c.curves[k].at(rgb[k])
	}
	return rgb
}

// Kind is what the correction stands on.
func (c *Correction) Kind() Kind { return c.kind }

// String says the correction in words: "none", "grey card", "3 greys",
// "24 patches".
func (c *Correction) String() string { return c.said }

// DoubtAt is ± ΔE00, about 95 %, of a color that the correction gives. It holds
// where the tile was lit as the reference was; what the tile's own mottling
// adds is in package mottle, and the two come together as √(a² + b²).
func (c *Correction) DoubtAt(of color.Lab) float64 { return c.trust.at(of) }

// Doubt is DoubtAt of a middling color.
func (c *Correction) Doubt() float64 { return c.DoubtAt(color.Lab{L: 50, A: 5, B: 10}) }

// Outside is how far a color that the correction gives lies outside all patches'
// colors by its a* and b*; 0 = among them, or no patch of color was used. More
// says that some patches were there too.
func (c *Correction) Outside(of color.Lab, more ...color.Lab) float64 {
	if len(c.trust.labs) == 0 {
		return 0
	}
	return outside(of, slices.Concat(c.trust.labs, more))
}

// Struck is the names of patches that were left out because they disagree with
// all others by far: glare or a finger on them, or another chart's values.
func (c *Correction) Struck() []string { return c.struck }

// None takes the photo as its camera wrote it. space takes its linear light to
// XYZ D50.
func None(space color.Matrix) *Correction {
	return &Correction{
		kind: Camera, said: "none", space: space, trust: cameraTrust,
		curves: [3]curve{straight(1), straight(1), straight(1)}, roots: identity,
	}
}

// fewest is how few patches can bear a root-polynomial and say how far it is
// off.
const leastForChart = 3

// Fit makes the best correction the patches allow: a scale from one or two, a
// curve from several greys, a curve and a root-polynomial from a chart or from
// control tiles. space takes the photo's linear light to XYZ D50.
//
// It fails where there is no patch, or none that holds any light.
func Fit(seen []Seen, space color.Matrix) (*Correction, error) {
	f := &fit{space: space, back: space.Inverse()}
	patches := f.ready(lit(seen))
	greys := 0
	for _, p := range patches {
		if p.Neutral {
			greys++
		}
	}
	switch {
	case len(patches) == 0:
		return nil, errors.New("none of the reference's patches can be used: each is missing, black or burnt out in the photo")
	case greys == len(patches), len(patches) < leastForChart:
		return f.scale(patches, greys), nil
	}
	return f.chart(patches)
}

// lit leaves out patches that say nothing: burnt out in a channel, or without
// light in all of them.
func lit(seen []Seen) (out []Seen) {
	const burnt = 0.99
	for _, s := range seen {
		brightest := max(s.RGB[0], s.RGB[1], s.RGB[2])
		if brightest > 0 && brightest < burnt && s.Lab.Real() {
			out = append(out, s)
		}
	}
	return out
}

// scale corrects from greys alone, or from a color or two.
func (f *fit) scale(patches []patch, greys int) *Correction {
	c := None(f.space)
	c.kind, c.curves = Grey, tones(patches)
	switch {
	case greys < len(patches):
		c.said, c.trust = many(len(patches), "known color"), knownTrust
	case greys == 1:
		c.said, c.trust = "grey card", greyTrust
	default:
		c.said, c.trust = many(greys, "grey"), greysTrust
	}
	return c
}

// chart corrects from patches of many colors, struck ones left out.
func (f *fit) chart(patches []patch) (*Correction, error) {
	kept, struck := f.strike(patches)
	c, misses, err := f.choose(kept)
	if err != nil {
		return nil, err
	}
	c.kind, c.said, c.struck = Chart, many(len(kept), "patch"), struck
	c.trust = trustFrom(kept, misses)
	return c, nil
}

// many counts in words: "1 patch", "24 patches".
func many(n int, what string) string {
	switch {
	case n == 1:
		return "1 " + what
	case what == "patch":
		what += "e"
	}
	return fmt.Sprintf("%d %ss", n, what)
}
