package fault

import (
	"fmt"
	"sort"

	"github.com/twodip/twodip/tiles"
)

// Seen counts faults by ordered pair over the whole log, for a page that
// everybody reads: "crawling on 9 of 11 pieces". Nothing that a person wrote
// comes through: a fault is one of the trade's words or "another fault". Nor
// does a count that is so small that it points at somebody.
type Seen struct {
	pairs map[tiles.Pair]*sight
	words []string
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
	tally
	all    people
	makers []people // by index of the fault's word
}

// people are the makers of some pieces. A piece whose maker is not written
// counts as somebody's own only where none is written.
type people struct {
	pieces int
	named  map[string]bool
}

func (p *people) add(maker string) {
	p.pieces++
	if maker = fold(maker); maker == "" {
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
	clerk, at := NewClerk(glazes), map[string]int{}
	for row := range log {
		p := clerk.Piece(row)
		if !opened(p) || !usable(clerk, p) {
			continue
		}
		var faults []int
		for _, w := range publicWords(p.Faults) {
			if _, ok := at[w]; !ok {
				at[w] = len(s.words)
				s.words = append(s.words, w)
			}
			faults = append(faults, at[w])
		}
		key := tiles.Pair{First: codeKey(p.First), Second: codeKey(p.Second)}
		if s.pairs[key] == nil {
			s.pairs[key] = &sight{}
		}
		s.pairs[key].look(faults, p.Maker)
	}
	return s
}

// publicWords leaves the trade's words and makes one of all others.
func publicWords(faults []string) []string {
	var words []string
	other := false
	for _, w := range faults {
		if _, known := wordForms[fold(w)]; known {
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

func (s *sight) look(faults []int, maker string) {
	s.add(faults)
	s.all.add(maker)
	for _, f := range faults {
		for len(s.makers) <= f {
			s.makers = append(s.makers, people{})
		}
		s.makers[f].add(maker)
	}
}

// On says what was seen on pieces with the pair, the most frequent fault
// first, or that none was; nothing where too few such pieces came out of a
// kiln. faults are the trade's words among them, to search by.
func (s Seen) On(p tiles.Pair) (faults, says []string) {
	t := s.pairs[tiles.Pair{First: codeKey(p.First), Second: codeKey(p.Second)}]
	if t == nil || t.pieces < fewestPieces || t.all.few() {
		return nil, nil
	}
	at, few := s.told(t)
	for _, f := range at {
		says = append(says, fmt.Sprintf("%s on %d of %d pieces", s.words[f], t.of(f), t.pieces))
		if s.words[f] != otherFault && s.words[f] != unnamed {
			faults = append(faults, s.words[f])
		}
	}
	switch {
	case few && len(at) == 0:
		says = append(says, fmt.Sprintf("faults on too few of %d pieces to count them here", t.pieces))
	case few:
		says = append(says, "other faults on too few pieces to count them here")
	case len(at) == 0:
		says = append(says, fmt.Sprintf("no fault on %d pieces", t.pieces))
	}
	return faults, says
}

// told lists the faults whose counts may be told, the most frequent first, and
// whether there are others.
func (s Seen) told(t *sight) (at []int, few bool) {
	for f := range s.words {
		switch {
		case t.of(f) == 0:
		case t.makers[f].few():
			few = true
		default:
			at = append(at, f)
		}
	}
	sort.Slice(at, func(i, j int) bool {
		a, b := t.of(at[i]), t.of(at[j])
		return a > b || a == b && s.words[at[i]] < s.words[at[j]]
	})
	return at, few
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
	return "how often each fault was seen with " + counted(pairs, "glaze or pair", "glazes or pairs") +
		fmt.Sprintf(", without names, anybody's own words, or a count of fewer than %d people's pieces", fewestPeople)
}
