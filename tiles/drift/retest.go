package drift

import (
	"math"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// Retest is one tile fired again, against the wall's own tile of its pair.
type Retest struct {
	Tile    tiles.Number `json:"tile"`
	Own     tiles.Number `json:"own"`
	Pair    tiles.Pair   `json:"pair"`
	Load    int          `json:"load"`
	Day     string       `json:"day,omitempty"`
	Batches []string     `json:"batches"` // it was made to test: "KM 3"
	L       float64      `json:"l"`       // signed difference, the loads' shift taken off where it is known
	A       float64      `json:"a"`
	B       float64      `json:"b"`
	DE00    float64      `json:"de00"`
	Doubt   float64      `json:"doubt"`  // ± ΔE00, about 95 %, what tiles differ by themselves included; 0 = not known
	Light   float64      `json:"light"`  // the part of it that photographs leave open; 0 = not known
	Beside  bool         `json:"beside"` // both tiles are in one photo
	Shift   float64      `json:"shift"`  // ΔE00 of the loads' shift that was taken off
	Parted  bool         `json:"parted"` // both loads have controls: firing and batch are told apart

	batches []tiles.BatchName
}

// Bands of ΔE00 between a bucket and its tile (common practice, no source; a
// pair of ceramic specimens is judged acceptable up to 1.8: Paravina et al.,
// J Esthet Restor Dent 27:S1, 2015, by its abstract).
const (
	slight     = 1.0
	noticeable = 2.0
	different  = 4.0
)

// Band says a difference in words.
func Band(de00 float64) string {
	switch {
	case de00 < slight:
		return "no difference to see"
	case de00 < noticeable:
		return "a slight difference"
	case de00 < different:
		return "a noticeable difference"
	}
	return "a different color"
}

// Beyond says that the difference is noticeable and larger than its doubt.
func (r Retest) Beyond() bool { return r.DE00 >= noticeable && r.Doubt > 0 && r.DE00 > r.Doubt }

// Off says that the bucket is behind the difference: it is beyond doubt, and
// the controls have taken the firing's share off.
func (r Retest) Off() bool { return r.Beyond() && r.Parted }

// vague is the doubt, left by photographs alone, above which a small difference
// says nothing, ± ΔE00: what most people see (common practice, no source).
const vague = different

// Vague says that the photos cannot tell: nothing is beyond doubt, and the doubt
// is as wide as a different color.
func (r Retest) Vague() bool { return !r.Beyond() && (r.Light == 0 || r.Light >= vague) }

// Unsure says that the difference is beyond doubt and may yet be the firing's,
// or that it would be noticeable and may be no more than doubt.
func (r Retest) Unsure() bool { return r.DE00 >= noticeable && !r.Off() && !r.Vague() }

// offInTwo says that re-tests in two loads lie beyond doubt: without controls
// that is as good, for two firings seldom go wrong the same way.
func offInTwo(list []Retest) bool {
	loads := map[int]bool{}
	for _, r := range list {
		if r.Beyond() {
			loads[r.Load] = true
		}
	}
	return len(loads) > 1
}

// retest compares a re-test with the wall's tile, by the two of their readings
// that tell most.
func (c comparing) retest(own, again shot) Retest {
	r := Retest{
		Tile: again.tile.Number, Own: own.tile.Number, Pair: again.tile.Pair, Load: again.tile.Load, Day: again.day,
		Batches: labels(again.tile.Batches), batches: again.tile.Batches,
	}
	before, after, light := c.closest(own, again)
	moved, doubt, parted := c.shift(own.tile.Load, again.tile.Load)
	r.Parted = parted
	then, now := labOf(before), labOf(after)
	fixed := color.Lab{L: now.L - moved.L, A: now.A - moved.A, B: now.B - moved.B}
	r.Shift = color.DE00(now, fixed)
	r.Light, r.Beside = light, before.Photo != "" && before.Photo == after.Photo
	if light > 0 {
		r.Doubt = math.Sqrt(square(light) + (2*square(norm95*c.spread)+square(doubt))*square(worth(then)))
	}
	r.L, r.A, r.B = fixed.L-then.L, fixed.A-then.A, fixed.B-then.B
	r.DE00 = color.DE00(then, fixed)
	return r
}

// tests says whether the re-test speaks for a glaze: it was made for one of
// its batches, or carries no other glaze.
func (r Retest) tests(code string) bool {
	return r.Pair.Has(code) && (r.Pair.Single() || r.Pair.Double() || r.names(code))
}

// names says whether it was made for a batch of the glaze.
func (r Retest) names(code string) bool {
	return slices.ContainsFunc(r.batches, func(b tiles.BatchName) bool { return tiles.SameCode(b.Glaze, code) })
}

// isOf says whether the re-test was made from a batch of the glaze: the plan
// says so or, where it names none, the day does. Any is where the record has
// one batch at most.
func (r Retest) isOf(b tiles.Batch, several bool) bool {
	if !several {
		return true
	}
	if !r.names(b.Glaze) {
		return r.Day != "" && r.Day >= b.MixedOn
	}
	return slices.ContainsFunc(r.batches, b.Named().Same)
}

func labels(batches []tiles.BatchName) []string {
	out := make([]string, len(batches))
	for i, b := range batches {
		out[i] = b.String()
	}
	return out
}
