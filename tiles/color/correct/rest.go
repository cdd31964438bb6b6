package correct

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"github.com/twodip/twodip/tiles/color"
)

// rest is what a root-polynomial leaves over, smoothed: colors near a patch
// that came out too red are themselves likely too red. Cameras make skies
// bluer and skins warmer in ways no polynomial of light follows.
//
// It is kriging with a Gaussian kernel (kernel ridge regression): near a patch
// it takes back about half of what the patch is off by, far from all patches
// nothing. Source: Rasmussen and Williams, "Gaussian Processes for Machine
// Learning" (2006), equation 2.25.
type rest struct {
	at     []color.Lab  // where the patches came out
	weight [][3]float64 // of each patch's kernel, in L*, a*, b*
}

const (
	restReach = 15.0 // of the kernel, in Lab
	restNoise = 1.0  // of a patch, over what neighbors share: each says half
)

// restOf finds what the correction leaves over at the patches; nothing where
// it cannot be told.
func restOf(c *Correction, patches []patch) (out rest) {
	n := len(patches)
	off := mat.NewDense(n, 3, nil)
	for i, p := range patches {
		got := c.XYZ(p.RGB).Lab()
		out.at = append(out.at, got)
		off.SetRow(i, []float64{p.Lab.L - got.L, p.Lab.A - got.A, p.Lab.B - got.B})
	}
	alike := mat.NewSymDense(n, nil)
	for i, p := range out.at {
		for j := range i + 1 {
			alike.SetSym(i, j, kernel(p, out.at[j]))
		}
		alike.SetSym(i, i, 1+restNoise)
	}
	var factors mat.Cholesky
	var weight mat.Dense
	if !factors.Factorize(alike) || factors.SolveTo(&weight, off) != nil {
		return rest{}
	}
	for i := range n {
		out.weight = append(out.weight, [3]float64{weight.At(i, 0), weight.At(i, 1), weight.At(i, 2)})
	}
	return out
}

func kernel(p, q color.Lab) float64 {
	l, a, b := p.L-q.L, p.A-q.A, p.B-q.B
	return math.Exp(-(l*l + a*a + b*b) / (2 * restReach * restReach))
}

// takenFrom is the color without what is left over there.
func (r *rest) takenFrom(c color.Lab) color.Lab {
	out := c
	for i, w := range r.weight {
		k := kernel(c, r.at[i])
		out.L += k * w[0]
		out.A += k * w[1]
		out.B += k * w[2]
	}
	return out
}
