package fault

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"github.com/twodip/twodip/tiles/fault/evidence"
)

// crowd is the pieces of a log sorted by which candidates each has and which
// load it was in, for one fault.
type crowd map[corner]*cell

// corner is a load and the candidates a piece has, one bit each.
type corner struct {
	load string
	has  uint64
}

// cell counts pieces and those of them with the fault.
type cell struct {
	pieces, faults int
}

// crowds goes through the log again with the candidates in hand.
func (c *counts) crowds(log Log, clerk *Clerk, j joined, found [][]Finding) []crowd {
	bits := make([]map[Suspect]uint64, len(found))
	crowds := make([]crowd, len(found))
	wanted := false
	for f, candidates := range found {
		bits[f], crowds[f] = map[Suspect]uint64{}, crowd{}
		for i, one := range candidates {
			bits[f][one.Suspect] = 1 << i
			wanted = true
		}
	}
	if !wanted {
		return crowds
	}
	var buffer []Suspect
	for row := range log {
		p := clerk.Piece(row)
		if !opened(p) || !usable(clerk, p) {
			continue
		}
		buffer = j.suspects(buffer[:0], p)
		for f := range crowds {
			if len(bits[f]) > 0 {
				crowds[f].add(buffer, bits[f], p.Load, has(p.Faults, c.words[f]))
			}
		}
	}
	return crowds
}

func has(words []string, word string) bool {
	for _, w := range words {
		if w == word {
			return true
		}
	}
	return false
}

func (c crowd) add(suspects []Suspect, bits map[Suspect]uint64, load string, faulty bool) {
	at := corner{load: load}
	for _, s := range suspects {
		at.has |= bits[s]
	}
	if c[at] == nil {
		c[at] = &cell{}
	}
	c[at].pieces++
	if faulty {
		c[at].faults++
	}
}

// strata sets a candidate's pieces against the others inside groups: by load
// where loads is set, and by which of the held candidates they have.
func (c crowd) strata(candidate int, loads bool, held uint64) evidence.Strata {
	groups := map[corner]*evidence.Table{}
	for at, n := range c {
		key := corner{has: at.has & held}
		if loads {
			key.load = at.load
		}
		t := groups[key]
		if t == nil {
			t = &evidence.Table{}
			groups[key] = t
		}
		if at.has>>candidate&1 == 1 {
			t.With += n.pieces
			t.WithFaults += n.faults
		} else {
			t.Without += n.pieces
			t.WithoutFaults += n.faults
		}
	}
	var s evidence.Strata
	for _, key := range slices.SortedFunc(maps.Keys(groups), corner.compare) {
		s = append(s, *groups[key]) // in order: the last digits of a sum depend on it
	}
	return s
}

func (a corner) compare(b corner) int {
	return cmp.Or(cmp.Compare(a.load, b.load), cmp.Compare(a.has, b.has))
}

// alike says whether two candidates are always on the same pieces.
func (c crowd) alike(a, b int) bool {
	for at := range c {
		if at.has>>a&1 != at.has>>b&1 {
			return false
		}
	}
	return true
}

// judge asks whether a candidate's difference is still there inside the
// groups. Gone wants the groups to speak against it: the difference over all
// pieces must lie outside what they allow.
func judge(s evidence.Strata, whole evidence.Table, level float64) Inside {
	telling := s.Telling()
	in := Inside{Loads: len(telling), P: 1, Holds: Unclear}
	odds, ok := telling.Odds()
	if len(telling) == 0 || !ok {
		return in
	}
	in.Odds, in.P = odds, telling.Exact().P
	overall, _ := evidence.Strata{whole}.Odds()
	switch {
	case in.P <= level && odds.Value > 1:
		in.Holds = Holds
	case odds.High < overall.Value && !math.IsInf(odds.High, 1):
		in.Holds = Gone
	}
	return in
}

// weigh sorts one fault's candidates, strongest first, into those that stand
// on their own and those that only follow from one of these or from the
// firing.
func (c crowd) weigh(candidates []Finding) (found, gone []Finding) {
	var held []int // the bits of the found
	for i, one := range candidates {
		if !one.Suspect.Kind.firing() {
			in := judge(c.strata(i, true, 0), one.Table, Level)
			one.Inside = &in
			if in.Holds == Gone {
				gone = append(gone, one)
				continue
			}
		}
		if !c.follows(i, one, found, held, len(candidates)) {
			found, held = append(found, one), append(held, i)
		}
	}
	return found, gone
}

// follows says whether a candidate needs no place of its own beside those
// found before it, and notes it with the one it belongs to.
func (c crowd) follows(i int, one Finding, found []Finding, held []int, asked int) bool {
	level := Level / float64(asked)
	var mask uint64
	for n, h := range held {
		mask |= 1 << h
		if c.alike(i, h) {
			found[n].Same = append(found[n].Same, one.Suspect)
			return true
		}
		switch judge(c.strata(i, false, 1<<h), one.Table, level).Holds {
		case Gone:
			found[n].Follow = append(found[n].Follow, one.Suspect)
			return true
		case Unclear:
			c.unclear(&found[n], one.Suspect, i, h)
			return true
		}
	}
	if len(held) == 0 {
		return false
	}
	all := judge(c.strata(i, !one.Suspect.Kind.firing(), mask), one.Table, level)
	if all.Holds != Holds {
		last := len(found) - 1
		found[last].Follow = append(found[last].Follow, one.Suspect)
		return true
	}
	return false
}

// nearlyAll is the share of their pieces that two suspects must share before
// a log with too few others is said to be unable to tell them apart.
const nearlyAll = 0.8

// unclear notes a candidate that has too few pieces of its own: where it has
// nearly the same pieces, this log cannot tell the two apart; otherwise it
// follows.
func (c crowd) unclear(f *Finding, s Suspect, a, b int) {
	both, either := 0, 0
	for at, n := range c {
		if at.has>>a&1 == 1 || at.has>>b&1 == 1 {
			either += n.pieces
			if at.has>>a&1 == at.has>>b&1 {
				both += n.pieces
			}
		}
	}
	if float64(both) >= nearlyAll*float64(either) {
		f.Same = append(f.Same, s)
		return
	}
	f.Follow = append(f.Follow, s)
}
