package correct

import (
	"gonum.org/v1/gonum/mat"

	"github.com/twodip/twodip/tiles/color"
)

// fit makes corrections from the patches of one photo.
type fit struct {
	space, back color.Matrix // the file's light ↔ XYZ D50
}

// patch is a seen patch, made ready for fitting.
type patch struct {
	Seen
	want   RGB           // its true light, in the photo's space
	weight [3][3]float64 // perceptual, of a small change of that light
}

func (f *fit) ready(seen []Seen) []patch {
	out := make([]patch, len(seen))
	for i, s := range seen {
		c := s.Lab.XYZ()
		r, g, b := f.back.Times(c.X, c.Y, c.Z)
		out[i] = patch{Seen: s, want: RGB{r, g, b}}
		out[i].weight = perceptualWeight(&f.space, s.Lab, out[i].want)
	}
	return out
}

// solve fits the curves, the root-polynomial with a ridge, and what is left.
func (f *fit) solve(patches []patch, ridge float64) (*Correction, bool) {
	c, ok := f.rough(patches, ridge)
	if ok {
		c.rest = restOf(c, patches)
	}
	return c, ok
}

// rough fits the curves and the root-polynomial alone; false where the patches
// tell too little.
func (f *fit) rough(patches []patch, ridge float64) (*Correction, bool) {
	c := None(f.space)
	c.curves = tones(patches)
	normal, right := f.normal(c, patches, ridge)
	var factors mat.Cholesky
	var x mat.VecDense
	if !factors.Factorize(normal) || factors.SolveVecTo(&x, right) != nil {
		return nil, false
	}
	for i := range unknowns {
		c.roots[i/terms][i%terms] = x.AtVec(i)
	}
	return c, true
}

// all is how many numbers a root-polynomial of three channels has.
const unknowns = 3 * terms

// normal is the normal equations of: the root-polynomial takes each patch's
// light to its true light, misses being weighed as they are perceived, and stays
// near leaving light as it is, as firmly as the ridge says: the more patches,
// the less it counts beside them.
//
// A patch's part in them is (FᵀF) ⊗ (ttᵀ), F being its perceptual weight and t the
// terms of its light.
func (f *fit) normal(c *Correction, patches []patch, ridge float64) (*mat.SymDense, *mat.VecDense) {
	left, right := make([]float64, unknowns*unknowns), make([]float64, unknowns)
	for i := range patches {
		p := &patches[i]
		have := termsOf(c.straighten(p.RGB))
		for k := range 3 {
			for l := range 3 {
				weight := p.weight[0][k]*p.weight[0][l] + p.weight[1][k]*p.weight[1][l] + p.weight[2][k]*p.weight[2][l]
				for i, v := range have {
					right[k*terms+i] += weight * p.want[l] * v
					for j, w := range have {
						left[(k*terms+i)*unknowns+l*terms+j] += weight * v * w
					}
				}
			}
		}
	}
	for i := range unknowns {
		left[i*unknowns+i] += ridge
		right[i] += ridge * identity[i/terms][i%terms]
	}
	return mat.NewSymDense(unknowns, left), mat.NewVecDense(unknowns, right)
}

// tones draws each channel's curve through the neutrals. With fewer than two,
// all patches together show the contrast.
func tones(patches []patch) (out [3]curve) {
	var neutrals []patch
	for _, p := range patches {
		if p.Neutral {
			neutrals = append(neutrals, p)
		}
	}
	switch {
	case len(neutrals) < 2 && len(patches) > 1:
		return leaning(patches)
	case len(neutrals) == 0:
		neutrals = patches
	}
	for k := range out {
		knots := make([]knot, len(neutrals))
		for i, p := range neutrals {
			knots[i] = knot{p.RGB[k], p.want[k]}
		}
		out[k] = through(knots)
	}
	return out
}
