package color

import (
	"math"

	"github.com/twodip/twodip/tiles/color/munsell"
)

// directions is how many ways out from a color the doubt is searched.
const directions = 24

// blocksWithin is the name block at places spread evenly through the ball of
// doubt about the color.
func blocksWithin(c Lab, doubt float64) []munsell.Block {
	out := make([]munsell.Block, 0, 2*directions)
	for i := range directions {
		way := spiral(i, directions)
		// ΔE00 is no Euclidean distance: stretch the way to one of its units.
		const hair = 0.01
		unit := hair / DE00(c, Lab{c.L + hair*way.L, c.A + hair*way.A, c.B + hair*way.B})
		// The middles of two shells of equal volume: the cube roots of 1/4 and 3/4.
		for _, shell := range [...]float64{0.63, 0.91} {
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
