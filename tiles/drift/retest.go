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
	Doubt   float64      `json:"doubt"`  // ± ΔE00, about 95 %; 0 = not known
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

// Unsure says that the difference would be noticeable but may be no more than
// doubt, or the firing's.
func (r Retest) Unsure() bool { return r.DE00 >= noticeable && !r.Off() }

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

// retest holds a re-test against the wall's tile.
func (f firings) retest(own, again shot) Retest {
	r := Retest{
		Tile: again.tile.Number, Own: own.tile.Number, Pair: again.tile.Pair, Load: again.tile.Load, Day: again.day,
		Batches: labels(again.tile.Batches), batches: again.tile.Batches,
	}
	fixed := again.lab
	now, okNow := f[again.tile.Load]
	then, okThen := f[own.tile.Load]
	squares := own.doubt*own.doubt + again.doubt*again.doubt
	r.Parted = okNow && okThen && again.tile.Load != own.tile.Load
	if r.Parted {
		fixed.L -= now.L - then.L
		fixed.A -= now.A - then.A
		fixed.B -= now.B - then.B
		squares += now.Doubt*now.Doubt + then.Doubt*then.Doubt
		r.Shift = color.DE00(again.lab, fixed)
	}
	if own.doubt > 0 && again.doubt > 0 {
		r.Doubt = math.Sqrt(squares)
	}
	r.L, r.A, r.B = fixed.L-own.lab.L, fixed.A-own.lab.A, fixed.B-own.lab.B
	r.DE00 = color.DE00(own.lab, fixed)
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
