package correct

import (
	"errors"
	"math"
	"slices"
)

// ridges are tried on every chart: a good photo bears a light one, a poor photo
// needs a firm one. Lighter ones had no smaller cross-validated error on simulated
// photos, and a far larger one from few patches.
var ridges = []float64{100, 300, 1000}

// choose fits with the ridge of the smallest cross-validated error: each patch is
// left out in turn and held against a fit to the others. How far that misses each
// patch, in ΔE00, comes with it.
func (f *fit) choose(patches []patch) (best *Correction, misses []float64, err error) {
	err = errTooLittle
	least := math.Inf(1)
	for _, ridge := range ridges {
		left, ok := f.leaveOneOut(patches, ridge)
		if !ok || rms(left) >= least {
			continue
		}
		if c, ok := f.solve(patches, ridge); ok {
			least, best, misses, err = rms(left), c, left, nil
		}
	}
	return best, misses, err
}

var errTooLittle = errors.New("the patches do not tell enough to correct from")

// leaveOneOut is, for each patch, how far from it in ΔE00 the correction lands
// that was made without it.
func (f *fit) leaveOneOut(patches []patch, ridge float64) ([]float64, bool) {
	out := make([]float64, len(patches))
	for i, p := range patches {
		c, ok := f.solve(without(patches, i), ridge)
		if !ok {
			return nil, false
		}
		out[i] = c.miss(p)
	}
	return out, true
}

// without is all but one, the rest left in place.
func without[T any](all []T, i int) []T {
	return slices.Delete(slices.Clone(all), i, i+1)
}

func rms(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x * x
	}
	return math.Sqrt(sum / float64(len(v)))
}
