package logbook

import (
	"cmp"
	"maps"
	"slices"
	"time"

	"github.com/twodip/twodip/tiles"
)

// Tally counts pieces that have something in common.
type Tally struct {
	Pieces, Well, Faulty, Waiting int
	Faults                        map[string]int // pieces by the word of their fault; one piece may have several
}

func (t *Tally) add(p tiles.Piece) {
	t.Pieces++
	switch {
	case len(p.Faults) > 0:
		t.Faulty++
	case Opened(p):
		t.Well++
	default:
		t.Waiting++
	}
	for _, f := range p.Faults {
		if t.Faults == nil {
			t.Faults = map[string]int{}
		}
		t.Faults[f]++
	}
}

// Words are the words of the faults, the most frequent first.
func (t Tally) Words() []string {
	return slices.SortedFunc(maps.Keys(t.Faults), func(a, b string) int {
		return cmp.Or(t.Faults[b]-t.Faults[a], cmp.Compare(a, b))
	})
}

// Week is a week of glazing, from its Monday (ISO 8601).
type Week struct {
	Monday time.Time
	Tally
}

// Load is what one firing brought.
type Load struct {
	Name  string
	first string // the day on which the first of its pieces was glazed
	Tally
}

// Coat is how often a glaze was put on.
type Coat struct {
	Code        string
	Under, Over int // as the 1st, as the 2nd
	Tally
}

// PairTally is what was glazed with one pair.
type PairTally struct {
	Pair tiles.Pair
	Tally
}

// Season is a log at a glance.
type Season struct {
	All     Tally
	Weeks   []Week      // in order, those without a piece between two with pieces too
	Undated int         // pieces without a day that can be read
	Loads   []Load      // in the order in which their first pieces were glazed
	Glazes  []Coat      // in the order of the list
	Pairs   []PairTally // the most used first
}

// mostWeeks is how long a log may run and have its empty weeks shown.
const mostWeeks = 60

// Count goes once through a log, each piece once.
func Count(log Log, glazes []tiles.Glaze) Season {
	var s Season
	weeks, loads, coats, pairs := map[time.Time]*Week{}, map[string]*Load{}, map[string]*Coat{}, map[tiles.Pair]*PairTally{}
	clerk := NewClerk(glazes)
	once, _ := Once(log, glazes)
	for row := range once {
		p := clerk.Piece(row)
		s.All.add(p)
		if day, err := time.Parse(time.DateOnly, p.Date); err == nil {
			monday := day.AddDate(0, 0, -(int(day.Weekday())+6)%7)
			of(weeks, monday, func() *Week { return &Week{Monday: monday} }).add(p)
		} else {
			s.Undated++
		}
		if p.Load != "" {
			l := of(loads, p.Load, func() *Load { return &Load{Name: p.Load, first: p.Date} })
			l.first = min(l.first, p.Date)
			l.add(p)
		}
		countCoats(coats, p)
		of(pairs, p.Pair, func() *PairTally { return &PairTally{Pair: p.Pair} }).add(p)
	}
	s.Weeks = inOrder(weeks)
	s.Loads = sorted(loads, func(a, b Load) int { return cmp.Or(cmp.Compare(a.first, b.first), cmp.Compare(a.Name, b.Name)) })
	for _, g := range glazes {
		if c := coats[g.Code]; c != nil {
			s.Glazes = append(s.Glazes, *c)
		}
	}
	s.Pairs = sorted(pairs, func(a, b PairTally) int {
		return cmp.Or(b.Pieces-a.Pieces, cmp.Compare(a.Pair.First, b.Pair.First), cmp.Compare(a.Pair.Second, b.Pair.Second))
	})
	return s
}

func countCoats(coats map[string]*Coat, p tiles.Piece) {
	under := of(coats, p.First, func() *Coat { return &Coat{Code: p.First} })
	under.Under++
	under.add(p)
	if p.Second == "" {
		return
	}
	over := of(coats, p.Second, func() *Coat { return &Coat{Code: p.Second} })
	over.Over++
	if p.Second != p.First { // a piece counts once for its glaze
		over.add(p)
	}
}

// of is the entry of a key, made where there is none.
func of[K comparable, V any](all map[K]*V, key K, fresh func() *V) *V {
	if all[key] == nil {
		all[key] = fresh()
	}
	return all[key]
}

func sorted[K comparable, V any](all map[K]*V, order func(a, b V) int) []V {
	out := make([]V, 0, len(all))
	for _, v := range all {
		out = append(out, *v)
	}
	slices.SortFunc(out, order)
	return out
}

// inOrder lists the weeks, with empty ones between, so that a gap is seen.
func inOrder(weeks map[time.Time]*Week) []Week {
	all := sorted(weeks, func(a, b Week) int { return a.Monday.Compare(b.Monday) })
	if len(all) == 0 || all[len(all)-1].Monday.Sub(all[0].Monday) > mostWeeks*7*24*time.Hour {
		return all
	}
	var out []Week
	for monday := all[0].Monday; !monday.After(all[len(all)-1].Monday); monday = monday.AddDate(0, 0, 7) {
		w := Week{Monday: monday}
		if is := weeks[monday]; is != nil {
			w = *is
		}
		out = append(out, w)
	}
	return out
}
