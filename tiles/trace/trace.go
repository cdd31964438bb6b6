package trace

import (
	"math"
	"slices"
	"sort"

	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/trace/evidence"
)

// Level is the share of wrongly named suspects we accept, over all that are
// named, and the chance at which a difference inside loads counts as seen.
const Level = 0.05

// fewest is how many pieces must have a fault before it is traced.
const fewest = 3

// Faults asks of every fault in the log what its pieces have in common. The
// log is gone through three times.
func Faults(log logbook.Log, studio Studio) Report {
	log, doubles := logbook.Once(log, studio.Glazes)
	clerk := logbook.NewClerk(studio.Glazes)
	j := newJoined(clerk.Batches(studio.Batches), studio.Loads)
	c := count(log, clerk, j)
	r := Report{
		Pieces: c.all.pieces, Good: c.good, Waiting: c.waiting, Unread: c.noGlaze,
		Read: clerk.Said(), Unknown: clerk.Unknown(), Doubles: doubles, glazes: studio.Glazes,
	}
	if !r.Comparable() {
		r.Faults = r.listed(c)
		return r
	}
	found := r.ask(c)
	again := logbook.NewClerk(studio.Glazes)
	crowds := c.crowds(log, again, j, found)
	for f, candidates := range found {
		word := logbook.FindWord(c.words[f])
		one := Fault{
			Word: word, Name: word.Name, Pieces: c.all.of(f), Of: c.all.pieces, Zones: c.zones[f],
			TooFew: c.all.of(f) < fewest,
		}
		one.Found, one.Gone = crowds[f].weigh(candidates)
		one.Shared = c.shared(f)
		r.Faults = append(r.Faults, one)
	}
	r.hold()
	for f := range r.Faults {
		r.describe(c, f, &r.Faults[f])
	}
	r.order()
	return r
}

// sure is the share of logs without a cause in which somebody may be named.
const sure = 0.02

// hold puts those that stand on their own to the step-up once more, as one
// discovery each: the first round counts every shadow of a true suspect (its
// glaze, its pairs, its load) as a discovery too, and with so many lets chance
// in beside them. What counts is the weaker of the chance over all pieces and
// the chance among each maker's own.
func (r *Report) hold() {
	var logs []float64
	for _, f := range r.Faults {
		for _, one := range f.Found {
			logs = append(logs, one.weaker())
		}
	}
	sort.Float64s(logs)
	limit := math.Inf(-1)
	for k, l := range logs {
		if l <= math.Log(sure*float64(k+1)/float64(r.Asked)) {
			limit = l
		}
	}
	for i := range r.Faults {
		r.Faults[i].Found = slices.DeleteFunc(r.Faults[i].Found, func(one Finding) bool { return one.weaker() > limit })
	}
}

func (f Finding) weaker() float64 { return max(f.logP, f.Makers.logP) }

// listed is the faults by count alone, for a log that allows no more.
func (r *Report) listed(c *counts) []Fault {
	var list []Fault
	for f, w := range c.words {
		word := logbook.FindWord(w)
		list = append(list, Fault{Word: word, Name: word.Name, Pieces: c.all.of(f), Of: c.all.pieces, Zones: c.zones[f]})
	}
	sort.SliceStable(list, func(i, j int) bool { return list[i].Pieces > list[j].Pieces })
	return list
}

func (r *Report) order() {
	sort.SliceStable(r.Faults, func(i, j int) bool {
		if r.Faults[i].Pieces != r.Faults[j].Pieces {
			return r.Faults[i].Pieces > r.Faults[j].Pieces
		}
		return r.Faults[i].Name < r.Faults[j].Name
	})
}

// ask puts every suspect to every fault at once and keeps, by fault, those
// that stand out from chance, strongest first.
func (r *Report) ask(c *counts) [][]Finding {
	var all []Finding
	var of []int
	list := c.list()
	for f := range c.words {
		if c.all.of(f) < fewest {
			continue
		}
		for _, s := range list {
			t := c.table(s, f)
			if t.Tells() {
				test := evidence.Exact(t)
				all = append(all, Finding{Suspect: s, Table: t, P: test.P, logP: test.LogP})
				of = append(of, f)
			}
		}
	}
	r.Asked = len(all)
	return outstanding(all, of, len(c.words))
}

// most bounds the suspects weighed against each other for one fault: a bit
// each.
const most = 64

func outstanding(all []Finding, of []int, faults int) [][]Finding {
	ps := make([]float64, len(all))
	for i, one := range all {
		ps[i] = one.P
	}
	found := make([][]Finding, faults)
	for i, q := range evidence.Adjust(ps) {
		if q <= Level && all[i].Table.Worse() {
			all[i].Q = q
			found[of[i]] = append(found[of[i]], all[i])
		}
	}
	for f := range found {
		sort.SliceStable(found[f], func(i, j int) bool { return found[f][i].logP < found[f][j].logP })
		found[f] = found[f][:min(len(found[f]), most)]
	}
	return found
}

// describe adds to the named findings what is only wanted for those.
func (r *Report) describe(c *counts, f int, one *Fault) {
	for _, list := range [][]Finding{one.Found, one.Gone} {
		for i := range list {
			list[i].Ratio, _ = evidence.Ratio(list[i].Table)
			if list[i].Suspect.Kind.batch() {
				others := c.siblings(list[i].Suspect, f)
				list[i].Others, list[i].OthersP = &others, evidence.Exact(others).P
			}
			for _, s := range least(list[i].Same) {
				list[i].Tests = append(list[i].Tests, r.separate(list[i].Suspect, s)...)
			}
			list[i].Name = r.Name(list[i].Suspect)
			list[i].Words, list[i].Figures = r.say(*one, list[i]), r.figures(list[i])
		}
	}
}
