package trace

import (
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/trace/evidence"
)

// Studio is what a log is joined with, by date and by number.
type Studio struct {
	Glazes  []tiles.Glaze
	Batches []tiles.Batch
	Loads   []tiles.Load
}

// Report is what a log says of its faults.
type Report struct {
	Pieces  int               `json:"pieces"`  // with a result and known glazes
	Good    int               `json:"good"`    // of them, without any fault
	Waiting int               `json:"waiting"` // rows without a result yet, left out
	Unread  int               `json:"unread"`  // rows whose glaze is not on the list, left out
	Asked   int               `json:"asked"`   // questions asked: suspects times faults
	Faults  []Fault           `json:"faults"`  // the most frequent first
	Read    []string          `json:"read"`    // liberties taken in reading
	Unknown []logbook.Unknown `json:"unknown"` // what could not be read
	Doubles logbook.Doubles   `json:"doubles"` // what stands in the log more than once

	glazes []tiles.Glaze
}

// Fault is one fault and the suspects that stand out.
type Fault struct {
	Word   logbook.Word       `json:"-"`
	Name   string             `json:"fault"`
	Pieces int                `json:"pieces"` // with the fault
	Of     int                `json:"of"`     // all pieces with a result
	Zones  map[tiles.Zone]int `json:"zones"`  // where it sat; "" = not written
	TooFew bool               `json:"tooFew"` // too few pieces to trace
	Shared bool               `json:"shared"` // nothing is named, and yet all its pieces have something in common that most pieces have not
	Found  []Finding          `json:"found"`  // named, the strongest first
	Gone   []Finding          `json:"gone"`   // stood out, but not inside single loads
}

// Finding is one suspect and what speaks for it.
type Finding struct {
	Suspect Suspect           `json:"suspect"`
	Name    string            `json:"name"`
	Words   []string          `json:"words"`   // one sentence an item, the counts first
	Figures string            `json:"figures"` // the numbers behind them, in one line
	Table   evidence.Table    `json:"table"`
	Ratio   evidence.Interval `json:"-"` // risk ratio; High may be +Inf
	P       float64           `json:"p"` // Fisher's exact test, two-sided
	Q       float64           `json:"q"` // after Benjamini and Hochberg
	Inside  *Inside           `json:"inside,omitempty"`
	Makers  Inside            `json:"makers"`           // the same asked among each maker's own pieces
	Alone   []string          `json:"alone,omitempty"`  // loads that held all its pieces and nothing else
	Others  *evidence.Table   `json:"others,omitempty"` // a batch against its glaze's other batches
	OthersP float64           `json:"othersP,omitempty"`
	Same    []Suspect         `json:"same,omitempty"` // cannot be told apart from it by this log
	Tests   []string          `json:"tests,omitempty"`
	Follow  []Suspect         `json:"follow,omitempty"` // stand out only because of it

	logP float64
}

// Inside is the same question asked inside groups, such as single loads.
type Inside struct {
	Groups int               `json:"groups"` // groups that can tell: pieces with and without side by side
	Odds   evidence.Interval `json:"-"`      // Mantel–Haenszel
	P      float64           `json:"p"`      // exact, conditional
	Holds  Verdict           `json:"holds"`

	logP float64
}

// Verdict says what is left of a difference when another is held still.
type Verdict string

// The verdicts.
const (
	Holds   Verdict = "holds"   // still there
	Gone    Verdict = "gone"    // not there any more
	Unclear Verdict = "unclear" // too few pieces side by side to tell
)

// Comparable says whether the log has a denominator: good pieces as well as
// faulty ones.
func (r Report) Comparable() bool { return r.Good > 0 && r.Good < r.Pieces }
