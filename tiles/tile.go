package tiles

import (
	"slices"
	"strings"
)

// Status says how far a tile has come.
type Status string

// The states of a tile in the plan.
const (
	Planned Status = "planned" // has a number, is not fired yet
	Fired   Status = "fired"   // hangs, or may hang, on the wall
	Retired Status = "retired" // broken, or its glaze is gone; the number stays
	Skipped Status = "skipped" // numbered before the rule came that skips it
)

// Statuses lists every status a plan may hold.
var Statuses = []Status{Planned, Fired, Retired, Skipped}

// Tile is one test tile: a row of the plan.
type Tile struct {
	Number Number
	Pair
	Status  Status
	Repeats Number      // the wall's own tile of this pair, where this one is a control or a re-test; 0 = it is the wall's own
	Load    int         // the firing it goes in, 1 and up; 0 = not placed yet
	Shelf   string      // name of the shelf in the load
	X, Y    float64     // mm from the shelf's left and front edge to the tile's centre
	Batches []BatchName // those that made it due (a re-test after a remix)
	Control bool        // it was numbered as a control
	Reason  string      // why it is skipped, retired or due again
	Earlier string      // what the reason was before the plan skipped or retired it
	Was     Status      // what it was before the plan skipped or retired it, so that it can come back; "" = the teacher set the status by hand and the plan leaves it alone
	Round   int         // the run of plan that gave the number: 1 the first, one more each time tiles were added; 0 = not said
}

// Own says that the tile is the wall's own of its pair, not a repeat.
func (t Tile) Own() bool { return t.Repeats == 0 }

// Retest says that it is fired again for a new batch.
func (t Tile) Retest() bool { return !t.Own() && len(t.Batches) > 0 }

// For says whether it was made to test the batch.
func (t Tile) For(b BatchName) bool { return slices.ContainsFunc(t.Batches, b.Same) }

// SayReason is the reason as people read it: "due again: batch KM 3 is new".
func (t Tile) SayReason() string {
	if t.Retest() && t.Was == "" && t.Reason != "" {
		return DueAgain + t.Reason
	}
	return t.Reason
}

// SayBatches names the batches it tests: "KM 3 + QM 2".
func (t Tile) SayBatches() string {
	labels := make([]string, len(t.Batches))
	for i, b := range t.Batches {
		labels[i] = b.String()
	}
	return strings.Join(labels, " + ")
}

// DueAgain begins the reason of a re-test.
const DueAgain = "due again: "

// IsControl says that the tile is fired again beside others, in every load, and
// not for a batch of its own: one that the plan numbered for that, or a repeat
// without a batch of a glaze that the studio names for it or, where it names
// none, of any.
func (k Kiln) IsControl(t Tile) bool {
	if t.Own() || len(t.Batches) > 0 {
		return false
	}
	return t.Control || len(k.Controls) == 0 || slices.ContainsFunc(k.Controls, func(code string) bool { return SameCode(code, t.First) })
}

// FindTile returns the tile with the number.
func FindTile(ts []Tile, n Number) (Tile, bool) {
	// Numbers are given in turn, so that a plan holds tile 7 in its 7th line
	// unless somebody has sorted it otherwise.
	if at := int(n) - 1; at >= 0 && at < len(ts) && ts[at].Number == n {
		return ts[at], true
	}
	for i := range ts {
		if ts[i].Number == n {
			return ts[i], true
		}
	}
	return Tile{}, false
}
