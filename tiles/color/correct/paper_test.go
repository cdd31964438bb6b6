package correct

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/color"
)

// paperShot is paper, an 18 % card and a color as a phone with its usual contrast
// writes them: a little dark, in warm light.
func paperShot(c color.Lab) (paper, card Seen, rgb RGB) {
	write := func(c color.Lab) (out RGB) {
		x := c.XYZ()
		r, g, b := x.LinearSRGB()
		for k, v := range [3]float64{0.85 * r, 0.8 * g, 0.7 * b} {
			coded := color.Encoded(max(0, v))
			out[k] = color.Linear((1-contrast)*coded + contrast*coded*coded*(3-2*coded))
		}
		return out
	}
	grey := color.Patch{Lab: color.Lab{L: 49.5}, Neutral: true}
	return Seen{OfficePaper, write(OfficePaper.Lab)}, Seen{grey, write(grey.Lab)}, write(c)
}

// A phone that does as was assumed is undone, by paper alone and with a card.
func TestPaperUndoesAUsualPhone(t *testing.T) {
	for _, c := range []color.Lab{{L: 30, A: 10, B: 5}, {L: 60, A: -15, B: 20}, {L: 85, A: 1, B: 4}} {
		paper, card, rgb := paperShot(c)
		for _, with := range []*Seen{nil, &card} {
			fix, err := FitPaper(paper, with, color.SRGBToXYZ)
			require.NoError(t, err)
			assert.Less(t, color.DE00(fix.XYZ(rgb).Lab(), c), 0.8)
			assert.Equal(t, Grey, fix.Kind())
		}
	}
}

// A card in a reflection contradicts the paper: the doubt says so.
func TestACardThatContradictsThePaperIsDoubted(t *testing.T) {
	paper, card, _ := paperShot(color.Lab{L: 50})
	agreed, err := FitPaper(paper, &card, color.SRGBToXYZ)
	require.NoError(t, err)
	for k := range card.RGB {
		card.RGB[k] *= 1.6
	}
	glared, err := FitPaper(paper, &card, color.SRGBToXYZ)
	require.NoError(t, err)
	assert.Greater(t, glared.Doubt(), agreed.Doubt()+3)
}

func TestPaperThatIsBlownOutIsRefused(t *testing.T) {
	_, err := FitPaper(Seen{OfficePaper, RGB{1, 1, 1}}, nil, color.SRGBToXYZ)
	assert.ErrorContains(t, err, "blown out")
}
