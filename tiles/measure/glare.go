package measure

import (
	"cmp"
	"math"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/photo"
)

// Bounds on a bright spot in the picture, ΔE00 between a color as it is if the spot
// is a reflection laid over the tile, and if it is more light falling there.
const (
	glaredSaid = 4.0  // from where it is said,
	glaredMost = 20.0 // and from where nothing is known of the color

	glaredTimes = 1.2 // how much further off it may be than the two are apart, 95 %
)

// clearer is the share of the other's doubt at which a chart tells that a bright spot
// is laid over the picture, or that it is not.
const clearer = 0.8

// believe puts the likelier of two fixes first, where a chart in the picture tells.
func believe(fix, under Fix) Fix {
	if under.Kind() == correct.Chart && (fix.Kind() != correct.Chart || under.Doubt() < clearer*fix.Doubt()) {
		fix, under = under, fix
	}
	fix.Under = &under
	return fix
}

// glared widens a reading's doubt by how far its color lies from what it is if a
// bright spot in the picture was taken for the wrong thing. The error is a refusal,
// where that is too far.
func (r *zoneReader) glared(f *Face, a area, reading *tiles.Reading) error {
	if r.fix.Under == nil {
		return nil
	}
	apart := glaredMost
	if got := r.areas.takeSample(f, a, &r.photo.Profile.ToXYZ, r.fix.Under.Light.level); got.kept > 0 {
		other, _ := colors(r.fix.Under.Correction, &got)
		apart = color.DE00(color.Lab{L: reading.L, A: reading.A, B: reading.B}, other)
	}
	if !(apart < glaredMost) {
		return photo.Refusal{
			What: "a bright spot lies over it, a reflection or a lamp's beam, and hides its color",
			Do:   "photograph it again in even light, where nothing shines back off it",
		}
	}
	reading.Doubt = math.Hypot(reading.Doubt, glaredTimes*apart)
	if apart > glaredSaid {
		reading.Warning = cmp.Or(reading.Warning, "a bright spot lies over it, a reflection or a lamp's beam: photograph it again in even light")
	}
	return nil
}
