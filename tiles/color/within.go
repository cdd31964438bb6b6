package color

import (
	"math"

	"github.com/twodip/twodip/tiles/color/munsell"
)

// directions is how many ways out from a color the doubt is searched.
const directions = 20

// shells are how far out, as shares of the doubt: near the lower, the middle
// and the upper third of the errors that a 95 % doubt stands for, as simulated
// photos have them.
var shells = [...]float64{0.25, 0.5, 0.8}

// blocksWithin is the name block at places spread around the color as its
// errors are.
func blocksWithin(c Lab, doubt float64) []munsell.Block {
	out := make([]munsell.Block, 0, len(shells)*directions)
	for i := range directions {
		way := spiral(i, directions)
		// ΔE00 is no Euclidean distance: stretch the way to one of its units.
		const hair = 0.01
		unit := hair / DE00(c, Lab{c.L + hair*way.L, c.A + hair*way.A, c.B + hair*way.B})
		for _, shell := range shells {
			r := doubt * unit * shell
			at := Lab{c.L + r*way.L, c.A + r*way.A, c.B + r*way.B}
			at.L = math.Min(math.Max(at.L, 0), 100)
			out = append(out, at.Munsell().Block())
		}
	}
	return out
}

// spiral is the i-th of n directions spread evenly over the sphere, on a
// golden-angle spiral (Vogel's sunflower, carried to the sphere).
func spiral(i, n int) Lab {
	up := 1 - (2*float64(i)+1)/float64(n)
	around := float64(i) * math.Pi * (3 - math.Sqrt(5))
	out := math.Sqrt(1 - up*up)
	return Lab{up, out * math.Cos(around), out * math.Sin(around)}
}
