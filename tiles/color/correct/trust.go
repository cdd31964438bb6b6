package correct

import (
	"math"

	"github.com/twodip/twodip/tiles/color"
)

// What a photo's colors may be off by, ± ΔE00 about 95 %, where no patch can
// tell: the 95th percentile over simulated careful photos under all lights, see
// TestAccuracyReport. With the camera alone most of it is the exposure, the same
// for all colors; a grey takes that out and leaves what grows with C*ab, the
// colors that cameras and bad lamps see differently from eyes in daylight.
var (
	cameraTrust = trust{flat: 12}
	knownTrust  = trust{flat: 5.5, rise: 0.11} // one or two known colors
	greyTrust   = trust{flat: 4.3, rise: 0.10} // one grey
	greysTrust  = trust{flat: 2.4, rise: 0.13} // several
)

// trust says how far a color may be off: by patches that were left out where
// there are some, by a flat share and one that rises with chroma elsewhere.
type trust struct {
	flat, rise float64
	labs       []color.Lab
	misses     []float64 // how far each patch was missed by the fit without it
	factor     float64
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
		return t.flat + t.rise*c.Chroma()
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
