package measure

import (
	"fmt"
	"math"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/geometry"
)

// greyCard is a grey card of which nothing else is known: it reflects 18 %
// (common practice, no source), which is L* 49.5.
var greyCard = color.Patch{Name: "grey card", Lab: color.Lab{L: 49.5}, Neutral: true}

// Bounds on what is taken for a grey card.
const (
	mostUneven = 0.25 // of its light, from its darkest to its lightest quarter
	mostTint   = 12.0 // C*ab from the paper around it
)

// byGrey corrects by a grey card. Where nobody said that one is there, a place
// that does not look like one is passed over in silence.
func (f *fitting) byGrey(p color.Patch, place geometry.Quad, asked bool) {
	complain := func(why string) {
		if asked || f.covered(place) {
			f.note("the grey card was not used: %s", why)
		}
	}
	m := f.areas
	m.read(f.photo, place.Bounds())
	rgb, ok := m.middling(place)
	if !ok {
		complain("it is blown out, or too small in the picture")
		return
	}
	low, okLow := m.middling(place.Part(0, 0, 0.5, 0.5))
	high, okHigh := m.middling(place.Part(0.5, 0.5, 1, 1))
	if !okLow || !okHigh || math.Abs(low[1]-high[1]) > mostUneven*rgb[1] {
		complain("it does not lie flat in even light, or covers only a part of its place")
		return
	}
	if why := f.unlikeGrey(p, rgb); why != "" {
		complain(why)
		return
	}
	card := correct.Seen{Patch: p, RGB: f.Light.leveled(place, rgb)}
	if f.byPaper(&card) || f.bySeen([]correct.Seen{card}) {
		f.Used = append(f.Used, place)
	}
}

// covered says that something other than paper lies at the card's place on the
// mat: a card that is not used is said even where nobody asked for one.
func (f *fitting) covered(place geometry.Quad) bool {
	f.areas.read(f.photo, place.Bounds())
	rgb, ok := f.areas.middling(place)
	if !ok || f.Light.Paper[1] == 0 {
		return false
	}
	return math.Abs(f.Light.leveled(place, rgb)[1]/f.Light.Paper[1]-1) > 0.25
}

// unlikeGrey compares what lies in the card's place with the paper of the mat:
// a card is as grey as paper under the same light, and much darker. Without
// paper in the picture nothing can be said.
func (f *fitting) unlikeGrey(p color.Patch, rgb correct.RGB) string {
	if f.Light.Paper == (correct.RGB{}) {
		return ""
	}
	var ratio correct.RGB
	for k := range ratio {
		ratio[k] = rgb[k] / f.Light.Paper[k] * 0.85 // of what falls on it, paper reflects some 85 %
	}
	got := f.photo.Profile.XYZ(ratio[0], ratio[1], ratio[2]).Lab()
	switch {
	case math.Hypot(got.A-p.Lab.A, got.B-p.Lab.B) > mostTint:
		return "what lies there is not grey"
	case math.Abs(got.L-p.Lab.L) > 18:
		return fmt.Sprintf("what lies there is L* %.0f beside the paper, not %.0f", got.L, p.Lab.L)
	}
	return ""
}
