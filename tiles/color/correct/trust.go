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
	cameraTrust = trust{flat: 17}
	knownTrust  = trust{flat: 5.5, rise: 0.11} // one or two known colors
	greyTrust   = trust{flat: 4.3, rise: 0.10} // one grey
	paperTrust  = trust{flat: 4.3, rise: 0.10} // the paper of the mat or of a board's marks
	greysTrust  = trust{flat: 2.4, rise: 0.13} // several

	paperCardTrust = trust{flat: 2.5, rise: 0.13}

	ownPaperTrust     = trust{flat: 3.8, rise: 0.10} // the same where a chart told the paper's color
	ownPaperCardTrust = trust{flat: 2.5, rise: 0.13}
)

// trust says how far a color may be off: by patches that were left out where
// there are some, by a flat share and one that rises with chroma elsewhere.
type trust struct {
	flat, rise float64
	labs       []color.Lab
	ratios     []float64 // what each patch was missed by without it, over its hardness
}

// trustFrom takes the leave-one-out misses for what they are: how far the
// correction is off at a color it was not given.
func trustFrom(patches []patch, misses []float64) (t trust) {
	for _, p := range patches {
		t.labs = append(t.labs, p.Lab)
	}
	for i, miss := range misses {
		t.ratios = append(t.ratios, miss/hardness(t.labs[i], without(t.labs, i)))
	}
	return t
}

// What an error grows with: a strong color is seen less alike by camera and eye
// than a grey one, and one far from every patch is known less than one beside a
// patch. Fitted on simulated photos, as are the numbers below.
const (
	strongChroma    = 80.0 // C*ab that doubles it
	distantNeighbor = 40.0 // ΔE00 to the nearest patch that doubles it; more adds no more
	neighborReach   = 30.0 // ΔE00 within which a patch speaks for a color
	priorSquares    = 4.5  // sum of squares that stands for what few patches cannot tell
	coverage95      = 1.7  // of the mean square, to cover 95 %
	farOutside      = 60.0 // of a* and b*, outside all patches, that adds what a grey on a patch has
)

// hardness is how many times further off a color is than a grey on a patch.
func hardness(c color.Lab, patches []color.Lab) float64 {
	nearest := distantNeighbor
	for _, p := range patches {
		nearest = min(nearest, color.DE00(c, p))
	}
	return 1 + c.Chroma()/strongChroma + nearest/distantNeighbor
}

// at is the 95th percentile of what a color may be off by. Patches near it
// speak most; what they were missed by is scaled to how hard the color is. A
// fixed sum of squares joins theirs, as a Bayesian's prior does: it weighs where
// patches are few or far, and hardly on a chart.
func (t *trust) at(c color.Lab) float64 {
	if len(t.labs) == 0 {
		return t.flat + t.rise*c.Chroma()
	}
	var sum, weights float64
	for i, ratio := range t.ratios {
		d := color.DE00(c, t.labs[i]) / neighborReach
		w := 1 / ((1 + d*d) * (1 + d*d))
		sum += w * ratio * ratio
		weights += w
	}
	return (hardness(c, t.labs) + outside(c, t.labs)/farOutside) * math.Sqrt((priorSquares+coverage95*sum)/weights)
}

// outside is how far a color lies outside the convex hull of the patches by its a*
// and b*, as the widest gap over all directions shows: 0 inside. What the patches
// tell of strong colors is then drawn on from weaker ones.
func outside(c color.Lab, patches []color.Lab) float64 {
	const ways = 48
	far := 0.0
	for i := range ways {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / ways)
		most := math.Inf(-1)
		for _, p := range patches {
			most = max(most, p.A*cos+p.B*sin)
		}
		far = max(far, c.A*cos+c.B*sin-most)
	}
	return far
}
