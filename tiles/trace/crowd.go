package trace

import (
	"cmp"
	"maps"
	"slices"

	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/trace/evidence"
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
func (c *counts) crowds(log logbook.Log, clerk *logbook.Clerk, j joined, found [][]Finding) []crowd {
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
		if !logbook.Opened(p) || !clerk.Counts(p) {
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
