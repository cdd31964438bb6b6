package fault

import (
	"fmt"
	"sort"

	"github.com/twodip/twodip/tiles"
)

// Seen counts faults by ordered pair over the whole log, without a word of
// whose pieces they were: "crawling on 9 of 11 pieces".
type Seen struct {
	pairs map[tiles.Pair]*tally
	words []string
}

// NewSeen goes through the log once.
func NewSeen(log Log, glazes []tiles.Glaze) Seen {
	s := Seen{pairs: map[tiles.Pair]*tally{}}
	clerk, at := NewClerk(glazes), map[string]int{}
	for row := range log {
		p := clerk.Piece(row)
		if !opened(p) || !usable(clerk, p) {
			continue
		}
		var faults []int
		for _, w := range p.Faults {
			if _, ok := at[w]; !ok {
				at[w] = len(s.words)
				s.words = append(s.words, w)
			}
			faults = append(faults, at[w])
		}
		key := tiles.Pair{First: codeKey(p.First), Second: codeKey(p.Second)}
		if s.pairs[key] == nil {
			s.pairs[key] = &tally{}
		}
		s.pairs[key].add(faults)
	}
	return s
}

// On says what was seen on pieces with the pair, the most frequent fault
// first, or that none was; nothing where the log has no such piece.
func (s Seen) On(p tiles.Pair) []string {
	t := s.pairs[tiles.Pair{First: codeKey(p.First), Second: codeKey(p.Second)}]
	if t == nil {
		return nil
	}
	var at []int
	for f := range s.words {
		if t.of(f) > 0 {
			at = append(at, f)
		}
	}
	if len(at) == 0 {
		return []string{fmt.Sprintf("no fault on %s", counted(t.pieces, "piece", "pieces"))}
	}
	sort.Slice(at, func(i, j int) bool {
		a, b := t.of(at[i]), t.of(at[j])
		return a > b || a == b && s.words[at[i]] < s.words[at[j]]
	})
	var lines []string
	for _, f := range at {
		lines = append(lines, fmt.Sprintf("%s on %d of %s", s.words[f], t.of(f), counted(t.pieces, "piece", "pieces")))
	}
	return lines
}
