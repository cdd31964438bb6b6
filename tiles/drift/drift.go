package drift

import (
	"maps"
	"math"
	"slices"
	"sort"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/drift/control"
	"github.com/twodip/twodip/tiles/logbook"
)

// State says how far a bucket can be trusted to make what hangs on the wall.
type State string

// The states of a bucket, the worst first.
const (
	Changed State = "no longer matches" // act
	Look    State = "look"              // something moves
	Unclear State = "cannot tell"       // the photos leave more open than a different color
	Untried State = "not re-tested"     // a new batch without a re-test that can be compared
	Matches State = "matches"
	Unknown State = "nothing to compare" // no re-test, and no new batch
)

var states = []State{Changed, Look, Unclear, Untried, Matches, Unknown}

// Report is every bucket against the wall's own tiles.
type Report struct {
	Buckets  []Bucket `json:"buckets"` // the worst first
	Controls []Series `json:"controls"`
	Shifts   []Shift  `json:"shifts"` // of the loads, by their controls
	Retests  []Retest `json:"retests"`
	Notes    []string `json:"notes"`
}

// Bucket is one glaze's bucket.
type Bucket struct {
	Glaze   string   `json:"glaze"`
	Name    string   `json:"name"`
	Batch   string   `json:"batch"` // in use; "" = not written
	Mixed   string   `json:"mixed"`
	State   State    `json:"state"`
	Words   []string `json:"words"`
	Retests []Retest `json:"retests"` // of the batch in use, the newest last
	Color   []Series `json:"color"`   // re-tests over time
	SG      *Series  `json:"sg,omitempty"`
}

// Series is one quantity over time on an individuals chart.
type Series struct {
	Title  string        `json:"title"`
	Unit   string        `json:"unit"`
	Tile   tiles.Number  `json:"tile,omitempty"` // the wall's own tile that it is held against
	Target float64       `json:"target"`         // 0 = none
	Chart  control.Chart `json:"chart"`
}

// Compare holds every bucket against the wall's own tiles. Which batch a bucket holds is taken from the record;
// which firing a tile had from the plan and the loads.
func Compare(w tiles.Wall, batches []tiles.Batch, loads []tiles.Load) Report {
	batches = logbook.NewClerk(w.Glazes).Batches(batches)
	list := newShots(w, loads)
	f, c := list.shifts(w), newComparing(w, list)
	d := Report{}
	for _, load := range slices.Sorted(maps.Keys(f)) {
		d.Shifts = append(d.Shifts, f[load])
	}
	for _, s := range list {
		if own, ok := list.of(s.tile.Repeats); ok && !w.Kiln.IsControl(s.tile) {
			d.Retests = append(d.Retests, c.retest(own, s))
		}
	}
	d.Controls = list.controlSeries(w)
	mixes := logbook.NewMixes(batches)
	d.Notes = list.notes(w, mixes)
	for _, g := range w.Glazes {
		if !g.Retired {
			d.Buckets = append(d.Buckets, d.bucket(g, mixes, batches))
		}
	}
	sort.SliceStable(d.Buckets, func(i, j int) bool { return d.Buckets[i].State.rank() < d.Buckets[j].State.rank() })
	return d
}

// Empty says that there is nothing to show: no re-test, no control, no chart,
// no new batch.
func (d Report) Empty() bool {
	for _, b := range d.Buckets {
		if b.State != Unknown || len(b.Series()) > 0 {
			return false
		}
	}
	return len(d.Controls) == 0 && len(d.Shifts) == 0
}

func (s State) rank() int {
	for i, one := range states {
		if one == s {
			return i
		}
	}
	return len(states)
}

func (d *Report) bucket(g tiles.Glaze, mixes logbook.Mixes, batches []tiles.Batch) Bucket {
	b := Bucket{Glaze: g.Code, Name: g.Name, SG: sgSeries(g, batches)}
	newest, _ := mixes.Newest(g.Code)
	b.Batch, b.Mixed = newest.Name, newest.MixedOn
	var own []Retest
	for _, r := range d.Retests {
		if r.tests(g.Code) {
			own = append(own, r)
			if r.isOf(newest, mixes.Remixed(g.Code)) {
				b.Retests = append(b.Retests, r)
			}
		}
	}
	b.Color = colorSeries(own)
	b.State = b.state(mixes.Remixed(g.Code))
	b.Words = b.say()
	return b
}

// Speaks says that the bucket asks for something: to act or to look.
func (b Bucket) Speaks() bool { return b.State == Changed || b.State == Look || b.State == Unclear }

// Quiet lists the buckets of a state in a line each.
func (d Report) Quiet(states ...State) []string {
	var lines []string
	for _, b := range d.Buckets {
		for _, s := range states {
			if b.State == s {
				lines = append(lines, b.Say())
			}
		}
	}
	return lines
}

// Gravities is the charts of specific gravity of the buckets that do not speak;
// those of the others stand with them.
func (d Report) Gravities() []Series {
	var out []Series
	for _, b := range d.Buckets {
		if !b.Speaks() && b.SG != nil {
			out = append(out, *b.SG)
		}
	}
	return out
}

// state weighs what is known: one re-test beyond its doubt, or one color beyond
// three sigma of limits that stand on enough points, asks to act; everything
// else, a specific gravity too, asks to look.
func (b *Bucket) state(remixed bool) State {
	state := Unknown
	if remixed && len(b.Retests) == 0 {
		state = Untried
	}
	worse := func(s State) {
		if s.rank() < state.rank() {
			state = s
		}
	}
	for _, r := range b.Retests {
		switch {
		case r.Off():
			worse(Changed)
		case r.Unsure():
			worse(Look)
		case !r.Vague():
			worse(Matches)
		}
	}
	if state.rank() > Matches.rank() && len(b.Retests) > 0 {
		worse(Unclear) // a vague one says nothing where another tells
	}
	if offInTwo(b.Retests) {
		worse(Changed)
	}
	for _, s := range b.Series() {
		if rule, ok := s.signal(); ok {
			if rule.Act() && !s.Chart.Provisional && s.Tile > 0 { // a specific gravity is no color
				worse(Changed)
			} else {
				worse(Look)
			}
		}
	}
	return state
}

// Series is every chart of the bucket: color, then specific gravity.
func (b Bucket) Series() []Series {
	if b.SG == nil {
		return b.Color
	}
	return append(b.Color[:len(b.Color):len(b.Color)], *b.SG)
}

// sgQuiet is how far a specific gravity may lie from its target before anybody
// is troubled: a milliliter too little in 100 ml is 0.015 (common practice).
const sgQuiet = 0.02

// signal is the strongest rule at the newest point; a specific gravity near
// its target gives none.
func (s Series) signal() (control.Rule, bool) {
	rule, ok := s.Chart.Last()
	if !ok || s.Target == 0 {
		return rule, ok
	}
	last := s.Chart.Points[len(s.Chart.Points)-1].Value
	return rule, math.Abs(last-s.Target) > sgQuiet
}
