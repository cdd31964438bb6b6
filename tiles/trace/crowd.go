package trace

import (
	"cmp"
	"maps"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/trace/evidence"
)

// crowd is the pieces of a log sorted by which candidates each has, which load
// it was in and whose it is, for one fault.
type crowd map[corner]*cell

// corner is a load, a maker and the candidates a piece has, one bit each. Who
// made a piece is compared and never told.
type corner struct {
	load, maker string
	has         uint64
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
				crowds[f].add(buffer, bits[f], corner{load: p.Load, maker: tiles.Fold(p.Maker)}, slices.Contains(p.Faults, c.words[f]))
			}
		}
	}
	return crowds
}

func (c crowd) add(suspects []Suspect, bits map[Suspect]uint64, at corner, faulty bool) {
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

// still is what is held still while a candidate's pieces are set against the
// others: the load, the maker, and which of the held candidates they have.
type still struct {
	load, maker bool
	held        uint64
}

// strata sets a candidate's pieces against the others inside groups.
func (c crowd) strata(candidate int, hold still) evidence.Strata {
	groups := map[corner]*evidence.Table{}
	for at, n := range c {
		key := corner{has: at.has & hold.held}
		if hold.load {
			key.load = at.load
		}
		if hold.maker {
			key.maker = at.maker
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
	return cmp.Or(cmp.Compare(a.load, b.load), cmp.Compare(a.maker, b.maker), cmp.Compare(a.has, b.has))
}

// alone lists the loads that the candidate's pieces were in, where those loads
// held nothing else: then nobody can tell it from these firings. Nothing where
// one of its pieces shared a load with others, or has no load.
func (c crowd) alone(candidate int) []string {
	loads := map[string]bool{}
	for at := range c {
		if at.has>>candidate&1 == 1 {
			loads[at.load] = true
		}
	}
	for at := range c {
		if at.has>>candidate&1 == 0 && loads[at.load] {
			return nil
		}
	}
	if loads[""] {
		return nil
	}
	return slices.Sorted(maps.Keys(loads))
}
