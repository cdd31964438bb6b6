package measure

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
)

// What wall.yaml may say stands in the photos to correct by.
const (
	refNone     = "none"
	refGround   = "ground"
	refGrey     = "grey"
	refGreys    = "greys"
	refChart    = "chart"
	refControls = "controls"
)

// greyCard is a grey card of which nothing else is known: it reflects 18 %
// (common practice, no source), which is L* 49.5.
var greyCard = color.Patch{Name: "grey card", Lab: color.Lab{L: 49.5}, Neutral: true}

// fitBy finds what stands in the photo to correct by, as the wall asks for it
// or, where it asks for nothing, as it is found, and fits the correction. A
// reference that is not there, or that does not fit, is said; the reading then
// stands on the camera alone.
func (s *scene) fitBy(ask Ask, reader *Reader) {
	want := ask.Wall.Photo.Reference
	if want == refNone {
		return
	}
	if s.whole {
		s.fitControls(ask, reader, want == refControls)
		return
	}
	outline, drawn := cardByHand(ask)
	switch {
	case want == refControls:
		s.note("controls are read from a photo of the whole board; this one stands on the camera alone")
	case want == refGround:
		s.fitGround(ask.grey())
	case len(ask.Patches) > 1:
		s.fitPatches(ask, drawn || want != "")
	case drawn:
		s.fitGrey(ask.grey(), outline, true)
	case s.cardPlace != nil && want != refChart && want != refGreys:
		s.fitGrey(ask.grey(), s.cardPlace.Part(0.3, 0.35, 0.7, 0.65), want == refGrey)
	case want == refChart || want == refGreys:
		s.note("no file of patches is given for the reference: name one as photo: chart in wall.yaml")
	case want == refGrey:
		s.note("no grey card was found: lay it on the mat, or give its outline in tiles/by-hand.csv")
	}
}

// cardByHand is the outline that somebody gave for the card in this photo.
func cardByHand(ask Ask) (Quad, bool) {
	for _, h := range ask.byHand() {
		if h.Card {
			return quadOfHand(h.Outline), true
		}
	}
	return Quad{}, false
}

func quadOfHand(outline [4][2]float64) (q Quad) {
	for i, c := range outline {
		q[i] = Point{c[0], c[1]}
	}
	return q
}

// grey is the grey card's color: from a file of one patch, or as usual.
func (a Ask) grey() color.Patch {
	if len(a.Patches) == 1 {
		return a.Patches[0]
	}
	return greyCard
}

// Bounds on what is taken for a grey card.
const (
	mostUneven = 0.25 // of its light, from its darkest to its lightest quarter
	mostTint   = 12.0 // C*ab from the paper around it
)

// fitGrey corrects by a grey card. Where nobody said that one is there, a place
// that does not look like one is passed over in silence.
func (s *scene) fitGrey(p color.Patch, place Quad, asked bool) {
	complain := func(why string) {
		if asked {
			s.note("the grey card was not used: " + why)
		}
	}
	var m mosaic
	m.read(s.photo, place.Bounds())
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
	if why := s.unlikeGrey(p, rgb); why != "" {
		complain(why)
		return
	}
	if s.fitSeen([]correct.Seen{{Patch: p, RGB: s.leveled(place, rgb)}}) {
		s.used = append(s.used, place)
	}
}

// unlikeGrey compares what lies in the card's place with the paper of the mat:
// a card is as grey as paper under the same light, and much darker. Without
// paper in the picture nothing can be said.
func (s *scene) unlikeGrey(p color.Patch, rgb correct.RGB) string {
	if s.paper == (correct.RGB{}) {
		return ""
	}
	var ratio correct.RGB
	for k := range ratio {
		ratio[k] = rgb[k] / s.paper[k] * 0.85 // of what falls on it, paper reflects some 85 %
	}
	got := s.photo.Profile.XYZ(ratio[0], ratio[1], ratio[2]).Lab()
	switch {
	case math.Hypot(got.A-p.Lab.A, got.B-p.Lab.B) > mostTint:
		return "what lies there is not grey"
	case math.Abs(got.L-p.Lab.L) > 18:
		return fmt.Sprintf("what lies there is L* %.0f beside the paper, not %.0f", got.L, p.Lab.L)
	}
	return ""
}

// leveled is what a place would show, were the light even.
func (s *scene) leveled(place Quad, rgb correct.RGB) correct.RGB {
	c := place.Part(0.5, 0.5, 1, 1)[0]
	at := s.light.at(c.X, c.Y)
	for k := range rgb {
		rgb[k] /= at[k]
	}
	return rgb
}

// fitSeen fits the correction; where it cannot, it says why.
func (s *scene) fitSeen(seen []correct.Seen) bool {
	c, err := correct.Fit(seen, s.photo.Profile.ToXYZ)
	if err != nil {
		s.note("the reference was not used: " + err.Error())
		return false
	}
	s.use(c)
	return true
}

// use takes a correction, and says what was struck from it.
func (s *scene) use(c *correct.Correction) {
	s.fix = c
	if struck := c.Struck(); len(struck) > 0 {
		s.note(fmt.Sprintf("left out of the reference, far from all others: %s", strings.Join(struck, ", ")))
	}
}

// fitControls corrects a photo of the whole board by the tiles on it whose
// color is known from a corrected photo of their own: the wall's controls.
func (s *scene) fitControls(ask Ask, r *Reader, asked bool) {
	var seen []correct.Seen
	var controls []Quad
	for i := range s.faces {
		f := &s.faces[i]
		known, ok := ask.control(f.Tile)
		if !ok {
			continue
		}
		got, ok := r.whole(s, f, ask, known.Zone)
		if !ok {
			continue
		}
		controls = append(controls, f.Quad)
		lab := color.Lab{L: known.L, A: known.A, B: known.B}
		seen = append(seen, correct.Seen{
			Patch: color.Patch{Name: "tile " + f.Tile.String(), Lab: lab}, RGB: got,
		})
	}
	if len(seen) < leastControls {
		if asked {
			s.note(fmt.Sprintf("%d of the tiles on the board are controls of known color; %d are needed to correct by: photograph a few tiles on the mat with a chart, or the singles of the kiln's controls with a grey card, first",
				len(seen), leastControls))
		}
		return
	}
	seen = append(seen, s.printed()...)
	if s.fitSeen(seen) {
		s.used = controls
		s.class, s.said = tiles.ClassControls, fmt.Sprintf("%d control tiles", len(controls))
	}
}

// White paper and black ink as printed about the marks of a board (common
// practice, no source): they hold the ends of the contrast where the controls
// are of middling lightness. They do not count as neutral, nor do controls of
// little chroma: papers are of many whites, and a curve drawn through two tiles
// that are nearly alike would lean on their noise.
var (
	whitePaper = color.Patch{Name: "white paper", Lab: color.Lab{L: 94}}
	blackInk   = color.Patch{Name: "black ink", Lab: color.Lab{L: 22}}
)

// printed is the paper and the ink as the photo shows them.
func (s *scene) printed() (seen []correct.Seen) {
	for _, p := range []correct.Seen{{Patch: whitePaper, RGB: s.paper}, {Patch: blackInk, RGB: s.ink}} {
		if p.RGB != (correct.RGB{}) {
			seen = append(seen, p)
		}
	}
	return seen
}

// leastControls is how many control tiles make a correction.
const leastControls = 3

// control is the reading that a tile's color is known by in a photo of the
// whole board: made on a chart in a photo of its own, typed in by hand from an
// instrument, or, for the singles that the wall names as its controls, made on
// a grey card.
func (a Ask) control(n tiles.Number) (tiles.Reading, bool) {
	t, ok := a.Wall.Tile(n)
	if !ok {
		return tiles.Reading{}, false
	}
	return a.trusted(t, a.Wall.Readings)
}

// trusted is control with the readings to choose from.
func (a Ask) trusted(t tiles.Tile, rs []tiles.Reading) (tiles.Reading, bool) {
	listed := slices.ContainsFunc(a.Wall.Kiln.Controls, func(code string) bool {
		return tiles.SameCode(code, t.First) && (t.Single() || t.Double())
	})
	var trusted []tiles.Reading
	for _, r := range rs {
		typed := r.Photo == "" && r.Hash == ""
		if r.Tile == t.Number && r.Photo != a.Photo && (r.Class == tiles.ClassChart || typed || listed && r.Class == tiles.ClassGrey) {
			trusted = append(trusted, r)
		}
	}
	return tiles.ColorOf(trusted, t.Number)
}

// whole is the mean light of a zone of a tile.
func (r *Reader) whole(s *scene, f *Face, ask Ask, zone tiles.Zone) (rgb correct.RGB, ok bool) {
	t, _ := ask.Wall.Tile(f.Tile)
	r.mosaic.read(s.photo, f.Quad.Bounds())
	for _, a := range areas(ask.Wall.Settings.Tile, t.Pair, f.Middle) {
		if a.zone != zone {
			continue
		}
		got := r.mosaic.takeSample(f, a, &s.photo.Profile.ToXYZ, s.light)
		for i := range got.light {
			for k := range rgb {
				rgb[k] += got.light[i][k] / float64(max(1, got.kept))
			}
		}
		return rgb, got.keptShare() > leastKept
	}
	return rgb, false
}
