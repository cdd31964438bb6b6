package foresee

import "gonum.org/v1/gonum/mat"

// kin is the fired pairs' covariance and its inverse, m × m, ΔE² and ΔE⁻².
// It knows which pairs were fired but not how they came out, so that one
// serves every rule and every axis.
type kin struct {
	inverse *mat.SymDense
	ones    []float64 // inverse · 1
}

func newKin(s Studio) (*kin, bool) {
	m := len(s.Pairs)
	cov := mat.NewSymDense(m, nil)
	for i, p := range s.Pairs {
		for j := i; j < m; j++ {
			v := s.kinship(p, s.Pairs[j])
			if i == j {
				v += itself
			}
			cov.SetSym(i, j, v)
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(cov) {
		return nil, false
	}
	k := &kin{inverse: cov} // the covariance itself is not needed again
	if err := chol.InverseTo(k.inverse); err != nil {
		return nil, false
	}
	k.ones = make([]float64, m)
	for i := range m {
		for j := range m {
			k.ones[i] += k.inverse.At(i, j)
		}
	}
	return k, true
}

// times is the inverse applied to a column of residues, m × 3.
func (k *kin) times(y []axes) []axes {
	out := make([]axes, len(y))
	for i := range y {
		for j := range y {
			v := k.inverse.At(i, j)
			for a := range 3 {
				out[i][a] += v * y[j][a]
			}
		}
	}
	return out
}

// unpull is (K⁻¹_BB)⁻¹ applied to a row of values for each of the block's one
// or two pairs.
func (k *kin) unpull(b []int, v []axes) []axes {
	p := k.inverse.At(b[0], b[0])
	if len(b) == 1 {
		return []axes{v[0].times(1 / p)}
	}
	q, r := k.inverse.At(b[0], b[1]), k.inverse.At(b[1], b[1])
	det := p*r - q*q
	return []axes{
		v[0].times(r / det).less(v[1].times(q / det)),
		v[1].times(p / det).less(v[0].times(q / det)),
	}
}

// A mean over few pairs is drawn toward none: it counts m / (m + 8).
const meanDraw = 8

func drawn(sum axes, m int) axes {
	for a := range sum {
		sum[a] /= float64(m) + meanDraw
	}
	return sum
}

// residue is what a rule leaves over, learnt from the fired pairs by a
// Gaussian process on each axis.
//
// Source: Rasmussen and Williams, Gaussian Processes for Machine Learning
// (2006), equation 2.25; the mean is taken off first.
type residue struct {
	mean axes
	sum  axes   // of the residues
	pull []axes // m: inverse · (residues − mean)
	raw  []axes // m: inverse · residues
}

func newResidue(k *kin, y []axes) residue {
	r := residue{raw: k.times(y), pull: make([]axes, len(y))}
	for _, v := range y {
		r.sum = r.sum.plus(v)
	}
	r.mean = drawn(r.sum, len(y))
	for i := range y {
		r.pull[i] = r.raw[i].less(r.mean.times(k.ones[i]))
	}
	return r
}

// of is the residue to expect of a pair with these covariances to the fired.
func (r residue) of(kinship []float64) axes {
	out := r.mean
	for i, v := range kinship {
		out = out.plus(r.pull[i].times(v))
	}
	return out
}
