package correct

import "math"

// ridges are tried on every chart: a good photo of many patches bears a light
// one, a poor photo or few patches need a firm one.
var ridges = []float64{0.1, 1, 10, 100, 1000}

// choose fits with the ridge that foretells best: the one whose fits, each
// made without one patch, come nearest to that patch. The root of the mean
// square of those misses, in ΔE00, comes with it.
func (f *fit) choose(patches []patch) (best *Correction, misses []float64, err error) {
	least := math.Inf(1)
	for _, ridge := range ridges {
		left, leftErr := f.leaveOneOut(patches, ridge)
		if leftErr != nil {
			err = leftErr
			continue
		}
		if r := rms(left); r < least {
			c, solveErr := f.solve(patches, ridge)
			if solveErr != nil {
				err = solveErr
				continue
			}
			least, best, misses = r, c, left
		}
	}
	if best != nil {
		err = nil
	}
	return best, misses, err
}

// leaveOneOut is, for each patch, how far from it in ΔE00 the correction lands
// that was made without it.
func (f *fit) leaveOneOut(patches []patch, ridge float64) ([]float64, error) {
	out := make([]float64, len(patches))
	for i, p := range patches {
		c, err := f.solve(without(patches, i), ridge)
		if err != nil {
			return nil, err
		}
		out[i] = c.miss(p)
	}
	return out, nil
}

func rms(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x * x
	}
	return math.Sqrt(sum / float64(len(v)))
}
