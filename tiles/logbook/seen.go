package logbook

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
)

// Seen counts faults by ordered pair over the whole log, for a page that
// everybody reads: "crawling on 9 of 11 pieces". Nothing that a person wrote
// comes through: a fault is one of the trade's words or "another fault". Nor
// does a count that is so small that it points at somebody.
type Seen struct {
	pairs map[tiles.Pair]*sight
}

// A count is told of at least fewestPieces pieces, and only where at least
// fewestPeople made those counted. Statistical offices hold back cells below
// three to ten (the threshold rule; from memory).
const (
	fewestPieces = 5
	fewestPeople = 3
)

// otherFault stands for a fault in somebody's own words.
const otherFault = "another fault"

// sight is what was seen on pieces with one pair.
type sight struct {
	all    people
	faults map[string]*people // word → the makers of the pieces with it
}

// people are the makers of some pieces. A piece whose maker is not written
// counts as somebody's own only where none is written.
type people struct {
	pieces int
	named  map[string]bool
}

func (p *people) add(maker string) {
	p.pieces++
	if maker = tiles.Fold(maker); maker == "" {
		return
	}
	if p.named == nil {
		p.named = map[string]bool{}
	}
	p.named[maker] = true
}

func (p people) few() bool {
	if len(p.named) == 0 {
		return p.pieces < fewestPeople
	}
	return len(p.named) < fewestPeople
}

// NewSeen goes through the log once.
func NewSeen(log Log, glazes []tiles.Glaze) Seen {
	s := Seen{pairs: map[tiles.Pair]*sight{}}
	clerk := NewClerk(glazes)
	for row := range log {
		p := clerk.Piece(row)
		if !Opened(p) || !clerk.Counts(p) {
			continue
		}
		on := s.pairs[p.Pair.Key()]
		if on == nil {
			on = &sight{faults: map[string]*people{}}
			s.pairs[p.Pair.Key()] = on
		}
		on.look(p)
	}
	return s
}

// publicWords leaves the trade's words and makes one of all others.
func publicWords(faults []string) []string {
	var words []string
	other := false
	for _, w := range faults {
		if _, known := wordForms[tiles.Fold(w)]; known {
			words = append(words, w)
		} else {
			other = true
		}
	}
	if other {
		words = append(words, otherFault)
	}
	return words
}

func (s *sight) look(p tiles.Piece) {
	s.all.add(p.Maker)
	for _, word := range publicWords(p.Faults) {
		if s.faults[word] == nil {
			s.faults[word] = &people{}
		}
		s.faults[word].add(p.Maker)
	}
}

// On says what was seen on pieces with the pair, the most frequent fault
// first, or that none was; nothing where too few such pieces came out of a
// kiln. faults are the trade's words among them, to search by.
func (s Seen) On(p tiles.Pair) (faults, says []string) {
	on := s.pairs[p.Key()]
	if on == nil || on.all.pieces < fewestPieces || on.all.few() {
		return nil, nil
	}
	told, few := on.told()
	for _, word := range told {
		says = append(says, fmt.Sprintf("%s on %d of %d pieces", word, on.faults[word].pieces, on.all.pieces))
		if word != otherFault && word != unnamed {
			faults = append(faults, word)
		}
	}
	switch {
	case few && len(told) == 0:
		says = append(says, fmt.Sprintf("faults on too few of %d pieces to count them here", on.all.pieces))
	case few:
		says = append(says, "other faults on too few pieces to count them here")
	case len(told) == 0:
		says = append(says, fmt.Sprintf("no fault on %d pieces", on.all.pieces))
	}
	return faults, says
}

// told lists the faults whose counts may be told, the most frequent first, and
// whether there are others.
func (s *sight) told() (words []string, few bool) {
	for word, makers := range s.faults {
		if makers.few() {
			few = true
			continue
		}
		words = append(words, word)
	}
	slices.SortFunc(words, func(a, b string) int {
		return cmp.Or(s.faults[b].pieces-s.faults[a].pieces, cmp.Compare(a, b))
	})
	return words, few
}

// Say says in a few words what a site that shows this holds of people's
// records.
func (s Seen) Say() string {
	pairs := 0
	for p := range s.pairs {
		if _, says := s.On(p); len(says) > 0 {
			pairs++
		}
	}
	if pairs == 0 {
		return "nothing"
	}
	return "how often each fault was seen with " + english.Count(pairs, "glaze or pair", "glazes or pairs") +
		fmt.Sprintf(", without names, anybody's own words, or a count of fewer than %d people's pieces", fewestPeople)
}
