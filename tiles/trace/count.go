package trace

import (
	"sort"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/trace/evidence"
)

// tally counts pieces, all of them and those with each fault.
type tally struct {
	pieces int
	faults map[int]int // by index of the fault's word; a suspect has seen few of them
}

func (t *tally) add(faults []int) {
	t.pieces++
	if len(faults) > 0 && t.faults == nil {
		t.faults = map[int]int{}
	}
	for _, f := range faults {
		t.faults[f]++
	}
}

func (t *tally) of(fault int) int {
	if t == nil {
		return 0
	}
	return t.faults[fault]
}

// counts is the log in figures: what it takes grows with the suspects, not
// with the rows.
type counts struct {
	all      tally
	waiting  int // pieces without a result yet
	noGlaze  int // pieces left out: their glaze is not on the list
	good     int
	faulty   int
	words    []string
	wordAt   map[string]int
	zones    []map[tiles.Zone]int
	suspects map[Suspect]*tally
	listed   []Suspect // list, once it was asked for
}

// count goes through the log once.
func count(log logbook.Log, clerk *logbook.Clerk, j joined) *counts {
	c := &counts{wordAt: map[string]int{}, suspects: map[Suspect]*tally{}}
	var buffer []Suspect
	for row := range log {
		p := clerk.Piece(row)
		switch {
		case !logbook.Opened(p):
			c.waiting++
			continue
		case !clerk.Counts(p):
			c.noGlaze++
			continue
		}
		faults := c.faultsOf(p)
		c.all.add(faults)
		buffer = j.suspects(buffer[:0], p)
		for _, s := range buffer {
			t := c.suspects[s]
			if t == nil {
				t = &tally{}
				c.suspects[s] = t
			}
			t.add(faults)
		}
	}
	return c
}

func (c *counts) faultsOf(p tiles.Piece) []int {
	if len(p.Faults) == 0 {
		c.good++
		return nil
	}
	c.faulty++
	at := make([]int, len(p.Faults))
	for i, w := range p.Faults {
		f, ok := c.wordAt[w]
		if !ok {
			f = len(c.words)
			c.wordAt[w] = f
			c.words = append(c.words, w)
			c.zones = append(c.zones, map[tiles.Zone]int{})
		}
		c.zones[f][p.Zone]++
		at[i] = f
	}
	return at
}

// table sets pieces with a suspect against those without; pieces for which
// the kind is not written are on neither side.
func (c *counts) table(s Suspect, fault int) evidence.Table {
	with, unwritten := c.suspects[s], c.suspects[Suspect{Kind: s.Kind}]
	t := evidence.Table{WithFaults: with.of(fault), With: with.pieces}
	t.Without = c.all.pieces - t.With
	t.WithoutFaults = c.all.of(fault) - t.WithFaults
	if unwritten != nil {
		t.Without -= unwritten.pieces
		t.WithoutFaults -= unwritten.of(fault)
	}
	return t
}

// siblings sets one batch against the other batches of its own glaze.
func (c *counts) siblings(s Suspect, fault int) evidence.Table {
	with := c.suspects[s]
	t := evidence.Table{WithFaults: with.of(fault), With: with.pieces}
	for other, tally := range c.suspects {
		if other.Kind == s.Kind && other.Glaze == s.Glaze && other != s {
			t.Without += tally.pieces
			t.WithoutFaults += tally.of(fault)
		}
	}
	return t
}

// list is the suspects in an order that does not depend on chance.
func (c *counts) list() []Suspect {
	if c.listed != nil {
		return c.listed
	}
	list := make([]Suspect, 0, len(c.suspects))
	for s := range c.suspects {
		if s.Glaze != "" || s.Name != "" {
			list = append(list, s)
		}
	}
	sort.Slice(list, func(i, j int) bool { return list[i].before(list[j]) })
	c.listed = list
	return list
}

// shared says that all pieces with a fault have something in common that most
// others have not.
func (c *counts) shared(fault int) bool {
	for _, s := range c.list() {
		if c.suspects[s].of(fault) == 0 {
			continue // most have not
		}
		t := c.table(s, fault)
		if t.Tells() && t.WithFaults == c.all.of(fault) && 2*t.With < t.Pieces() {
			return true
		}
	}
	return false
}
