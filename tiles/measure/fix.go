package measure

import (
	"cmp"
	"fmt"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/geometry"
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

// Fix is what takes a photo's light to color, and what it stands on.
type Fix struct {
	*correct.Correction
	Used  []geometry.Quad // where the reference was read
	Light Lit
	Notes []string // why a reference was not used, a sentence each
	Under *Fix     // the same where a bright spot in the picture is light laid over it; nil = there is none

	class tiles.Class // instead of the correction's own kind
	said  string      // instead of the correction's own words
}

func (f *Fix) note(format string, of ...any) { f.Notes = append(f.Notes, fmt.Sprintf(format, of...)) }

// use takes a correction, and says what was struck from it.
func (f *Fix) use(c *correct.Correction) {
	f.Correction = c
	if struck := c.Struck(); len(struck) > 0 {
		f.note("left out of the reference, far from all others: %s", strings.Join(struck, ", "))
	}
}

// Class is what a color stands on, in one word.
func (f *Fix) Class() tiles.Class { return cmp.Or(f.class, tiles.Class(f.Kind())) }

// String is what a color stands on, in words.
func (f *Fix) String() string { return cmp.Or(f.said, f.Correction.String()) }

// fitting is the fit of one photo's correction.
type fitting struct {
	*shot
	ask   Ask
	found *Found
	areas *mosaic // memory to read areas in
	Fix
}

// fixOf finds what stands in the photo to correct by, as the wall asks for it
// or, where it asks for nothing, as it is found, and fits the correction. A
// reference that is not there, or that does not fit, is said; the reading then
// stands on the camera alone.
func fixOf(s *shot, found *Found, ask Ask, areas *mosaic) Fix {
	var light Lit
	if len(found.Paper) > 0 {
		light = readLight(s.photo, found)
	}
	fix := fixBy(s, found, ask, areas, light)
	if light, ok := light.underGlare(); ok {
		fix = believe(fix, fixBy(s, found, ask, areas, light))
	}
	return fix
}

// fixBy is fixOf by what is known of the light.
func fixBy(s *shot, found *Found, ask Ask, areas *mosaic, light Lit) Fix {
	f := fitting{shot: s, ask: ask, found: found, areas: areas}
	f.Correction, f.Light = correct.None(s.photo.Profile.ToXYZ), light
	if found.onPage() && f.Light.Paper[1] > 0 && f.Light.Paper[1] < darkPaper {
		f.note(saidDark)
	}
	switch want := ask.Wall.Photo.Reference; {
	case want == refNone, found.Pair: // a pair has nothing beside it but the paper
	case found.Whole:
		f.byControls(want == refControls)
	default:
		f.byCard(want)
	}
	if want := ask.Wall.Photo.Reference; want != refNone && (want != refGround || found.Pair) && f.Kind() == correct.Camera {
		f.byPaper(nil)
	}
	if f.Light.shadowed() {
		f.note("the edge of a shadow, or a reflection, lies across %s: its light was followed and the doubt is wider; photograph again in even light", f.lies())
	}
	return f.Fix
}

// byCard corrects a photo of one tile.
func (f *fitting) byCard(want string) {
	outline, drawn := f.ask.cardByHand()
	switch {
	case want == refControls:
		f.note("controls are read from a photo of the whole board; this one stands on the camera alone")
	case want == refGround:
		f.byGround(f.ask.grey())
	case len(f.ask.Patches) > 1:
		f.byPatches(drawn || want != "")
	case drawn:
		f.byGrey(f.ask.grey(), outline, true)
	case f.found.Card != nil && want != refChart && want != refGreys:
		f.byGrey(f.ask.grey(), f.found.Card.Part(0.3, 0.35, 0.7, 0.65), want == refGrey)
	case want == refChart || want == refGreys:
		f.note("no file of patches is given for the reference: name one as photo: chart in wall.yaml")
	case want == refGrey:
		f.note("no grey card was found: lay it on the mat, or give its outline in tiles/by-hand.csv")
	}
}

// lies is what the photo shows the light on.
func (f *fitting) lies() string {
	switch {
	case f.found.Whole:
		return "the board"
	case f.found.onPage():
		return "the mat"
	}
	return "the sheet"
}

// byPaper corrects by the white paper of the mat or of a board's marks, and by a
// card on it where one was seen; where the paper is blown out, it does not.
func (f *fitting) byPaper(card *correct.Seen) bool {
	if f.Light.Paper == (correct.RGB{}) {
		return false
	}
	c, err := correct.FitPaper(correct.Seen{Patch: f.ask.paper(), RGB: f.Light.Paper}, card, f.photo.Profile.ToXYZ)
	if err != nil {
		return false
	}
	f.use(c)
	return true
}

// paper is the mat's paper: the studio's own where its color is known.
func (a Ask) paper() color.Patch {
	if own := a.Wall.Photo.Paper; len(own) == 3 {
		return correct.OwnPaper(color.Lab{L: own[0], A: own[1], B: own[2]})
	}
	return correct.OfficePaper
}

// paperSeen is the color of the mat's paper where a chart on it tells; ok is false
// where none does, or its light is uneven.
func (f *Fix) paperSeen(found *Found) (lab color.Lab, ok bool) {
	if !found.onPage() || f.Kind() != correct.Chart || f.Light.Paper == (correct.RGB{}) || f.Light.shadowed() {
		return lab, false
	}
	return f.XYZ(f.Light.Paper).Lab(), true
}

// bySeen fits the correction; where it cannot, it says why.
func (f *fitting) bySeen(seen []correct.Seen) bool {
	c, err := correct.Fit(seen, f.photo.Profile.ToXYZ)
	if err != nil {
		f.note("the reference was not used: %s", err)
		return false
	}
	f.use(c)
	return true
}

// cardByHand is the outline that somebody gave for the card in this photo.
func (a Ask) cardByHand() (geometry.Quad, bool) {
	for _, h := range a.byHand() {
		if h.Card {
			return quadOfHand(h.Outline), true
		}
	}
	return geometry.Quad{}, false
}

func quadOfHand(outline [4][2]float64) (q geometry.Quad) {
	for i, c := range outline {
		q[i] = geometry.Point{X: c[0], Y: c[1]}
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
