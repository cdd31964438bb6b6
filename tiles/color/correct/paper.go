package correct

import (
	"errors"
	"math"

	"github.com/twodip/twodip/tiles/color"
)

// OfficePaper is a sheet of which nothing else is known: papers reflect 82 to
// 90 % and most glow a little blue by their brighteners (from memory, no source;
// measured sheets differ by ± 2 L* and ± 3 b*).
var OfficePaper = color.Patch{Name: "white paper", Lab: color.Lab{L: 94.3, A: 0.3, B: -2}, Neutral: true}

// OwnPaper is the studio's own sheet, whose color a chart on it showed.
func OwnPaper(lab color.Lab) color.Patch {
	return color.Patch{Name: "own paper", Lab: lab, Neutral: true}
}

// FitPaper corrects by white paper, and by a grey card beside it where card is
// given: the card tells the light's color and the tone of most glazes, the paper
// what the camera made of light tones. It fails where the paper cannot be used.
func FitPaper(paper Seen, card *Seen, space color.Matrix) (*Correction, error) {
	f := &fit{space: space, back: space.Inverse()}
	white := f.ready(lit([]Seen{paper}))
	if len(white) == 0 {
		return nil, errors.New("the paper is blown out or black in the photo")
	}
	c := None(space)
	own := paper.Patch != OfficePaper
	c.kind, c.said, c.trust = Grey, paper.Name, paperTrust
	if own {
		c.trust = ownPaperTrust
	}
	c.curves = ofOne(white[0])
	if card == nil {
		return c, nil
	}
	grey := f.ready(lit([]Seen{*card}))
	if len(grey) == 0 || grey[0].RGB[1] >= 0.8*white[0].RGB[1] {
		return c, nil
	}
	c.said, c.trust = "grey card and paper", paperCardTrust
	believed := paperTint
	if own {
		c.said, c.trust, believed = "grey card and own paper", ownPaperCardTrust, ownTint
	}
	c.curves = ofTwo(grey[0], white[0], believed)
	c.trust.flat = math.Hypot(c.trust.flat, disagreement(grey[0], white[0]))
	return c, nil
}

// disagreement is what card and paper say differently of how light the photo is,
// beyond what papers and cameras differ by, as ΔE00 of a middling color: one of
// them lies in glare or in a shadow.
func disagreement(card, paper patch) float64 {
	const usual, middling = 0.16, 22.0 // of the logarithm; L* of a color of 50 by the logarithm of its light
	way := math.Log(paper.want[1]/undone(paper.RGB[1])) - math.Log(card.want[1]/undone(card.RGB[1]))
	return middling * max(0, math.Abs(way)-usual)
}
