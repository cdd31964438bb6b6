package correct

import (
	"math"

	"github.com/twodip/twodip/tiles/color"
)

// What a photo's colors may be off by, ± ΔE00 about 95 %, where no patch can
// tell: the 95th percentile over simulated careful photos under all lights, see
// TestAccuracyReport. With the camera alone most of it is the exposure.
const (
	cameraDoubt = 12.0
	knownDoubt  = 8.5 // one or two known colors
	greyDoubt   = 7.5 // one grey
	greysDoubt  = 6.5 // several
)

// trust says how far a color may be off.
type trust struct {
	flat   float64 // everywhere the same, where there are no misses
	labs   []color.Lab
	misses []float64 // how far each patch was missed by the fit without it
	factor float64
}

// trustFrom takes the leave-one-out misses for what they are: how far the
// correction is off at a color it was not given. What is stated is a multiple
// of their root mean square, larger for few patches, which know their own
// misses badly: 1.7 for 24, 2.1 for 12, 2.6 for 8 and fewer. The multiples are
// those that cover 95 % in simulation.
func trustFrom(patches []patch, misses []float64) trust {
	t := trust{misses: misses, factor: math.Min(1.2+11/float64(len(patches)), 2.6)}
	for _, p := range patches {
		t.labs = append(t.labs, p.Lab)
	}
	return t
}

// reach is the ΔE00 within which a patch speaks for a color: a grey is known
// better than a strong red, and next to known patches better than far out.
const reach = 10.0

func (t *trust) at(c color.Lab) float64 {
	if len(t.misses) == 0 {
		return t.flat
	}
	var sum, weights float64
	for i, miss := range t.misses {
		d := color.DE00(c, t.labs[i]) / reach
		w := 1 / ((1 + d*d) * (1 + d*d))
		sum += w * miss * miss
		weights += w
	}
	return t.factor * math.Sqrt(sum/weights)
}
