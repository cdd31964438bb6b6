package site

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// This file holds the words that depend on a number or a state. The browser's
// script gets the same bands with the data, so that both say the same.

// band is a distance between two colors in words.
type band struct {
	Under float64 `json:"under"` // ΔE00, up to and not including
	Words string  `json:"words"`
}

// bands say how far apart two colors are. Ceramic specimens side by side are
// told apart from about ΔE00 0.8 and differ acceptably to about 1.8 (Paravina
// et al. 2015, by its abstract); the rest is common practice, no source.
var bands = []band{
	{1, "no difference to see"},
	{2, "a slight difference"},
	{4, "a noticeable difference"},
	{10, "a different color"},
	{math.MaxFloat64, "far apart"},
}

// Inside the doubt the number decides nothing: a small one is said to be the
// same as far as a photo can tell, a large one to be open.
const (
	same   = "the same within what a photo can tell"
	unsure = "perhaps the same: these photos cannot tell"
)

// phoneDoubt is the doubt of a color from a photo with nothing in it to correct
// by: 95 % of simulated careful photos are within it (README).
const phoneDoubt = 12

// distanceWords says a distance of d between two readings with the given doubt.
func distanceWords(d, doubt float64) string {
	switch {
	case d <= doubt && d < color.Evident:
		return same
	case d <= doubt:
		return unsure
	}
	return bandWords(d)
}

// bandWords says a distance as if both colors were known for sure.
func bandWords(d float64) string {
	for _, b := range bands {
		if d < b.Under {
			return b.Words
		}
	}
	return bands[len(bands)-1].Words
}

// distance is the distance of two tiles' colors in number and words, or that
// one has not been read.
func distance(a, b *hung) string {
	if !a.read || !b.read {
		return "not both measured yet"
	}
	d := color.DE00(a.lab, b.lab)
	said := fmt.Sprintf("ΔE00 %s, %s", oneDecimal(d), distanceWords(d, together(a.reading.Doubt, b.reading.Doubt)))
	if a.mottled() || b.mottled() {
		said += meansOnly
	}
	return said
}

// meansOnly is said of a distance in which a mottled tile has a part: two
// tiles of the same mean may look nothing like each other.
const meansOnly = "; these are means: look how each one breaks"

// mottled says that one number says little about the tile. A mean distance of
// 5 ΔE00 from the mean is past what anybody takes for one color (common
// practice, no source).
func (h *hung) mottled() bool { return h.read && h.reading.Spread >= mottledFrom }

const mottledFrom = 5

// together is the doubt of a distance between two readings that err
// independently: in quadrature.
func together(a, b float64) float64 { return math.Hypot(a, b) }

// doubtWords says a reading's doubt.
func doubtWords(doubt float64) string {
	if doubt <= 0 {
		return "±\u00a0not known"
	}
	if doubt < 1 {
		return "±\u00a0" + oneDecimal(doubt)
	}
	return "±\u00a0" + strconv.Itoa(int(math.Ceil(doubt-0.05)))
}

// waiting says why a place has no photo, and what comes next.
func (h *hung) waiting() string {
	switch h.stage() {
	case tiles.Skipped:
		return colon("skipped", h.Reason)
	case tiles.Retired:
		return colon("retired", h.Reason)
	case tiles.Fired:
		if h.read {
			return "fired and measured, no photo here"
		}
		return "fired, no photo yet"
	}
	return colon(h.planned(), h.SayReason())
}

// stage is how far the tile has come: a tile with a photo or a color has been
// fired, whatever the plan still says.
func (h *hung) stage() tiles.Status {
	if h.Status == tiles.Planned && (h.read || h.photo.ok()) {
		return tiles.Fired
	}
	return h.Status
}

// stageWords is the stage in words to search by.
func (h *hung) stageWords() string {
	if h.due != "" {
		return string(h.stage()) + ", due again"
	}
	return string(h.stage())
}

// planned says when the tile will be fired.
func (h *hung) planned() string {
	if h.Load > 0 {
		return "planned, load " + strconv.Itoa(h.Load)
	}
	return "planned"
}

// colon joins a state and its reason, where there is one.
func colon(state, reason string) string {
	switch {
	case reason == "":
		return state
	case strings.Contains(reason, ": "): // one colon a sentence
		return state + ", " + reason
	}
	return state + ": " + reason
}

// skippedPair says why a pair has no tile at all.
func (m *maker) skippedPair(p tiles.Pair) string {
	if m.Skipped == nil {
		return "no tile"
	}
	if why := m.Skipped(p); why != "" {
		return "skipped: " + why
	}
	return "not planned"
}

// correctionWords says what a reading stands on.
func correctionWords(r tiles.Reading) string {
	switch r.Class {
	case tiles.ClassChart:
		return "corrected on a chart in the photo"
	case tiles.ClassControls:
		return "corrected on the wall's own control tiles"
	case tiles.ClassGrey:
		return "corrected on a grey reference in the photo"
	}
	return "camera only: nothing in the photo to correct by"
}

// profiles are the color profiles that pages name. Another one's name is
// whatever its owner wrote into it, "Emma's laptop" among them.
var profiles = []string{"sRGB", "sRGB assumed", "sRGB IEC61966-2.1", "Display P3", "Adobe RGB (1998)", "ProPhoto RGB", "unnamed profile"}

func profileWords(name string) string {
	if name == "" || slices.Contains(profiles, name) {
		return name
	}
	return "the photo’s own"
}
