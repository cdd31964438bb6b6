package trace

import (
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/logbook"
)

// Kind is what a suspect is.
type Kind string

// The kinds of suspect. Where two of them are on the very same pieces, the
// earlier kind is said first.
const (
	KindPair        Kind = "pair"
	KindFirst       Kind = "first"
	KindSecond      Kind = "second"
	KindGlaze       Kind = "glaze"
	KindBatchFirst  Kind = "batch as first"
	KindBatchSecond Kind = "batch as second"
	KindBatch       Kind = "batch"
	KindPlace       Kind = "shelf of a load"
	KindShelf       Kind = "shelf"
	KindMethod      Kind = "method"
	KindClay        Kind = "clay"
	KindBisque      Kind = "bisque load"
	KindLoad        Kind = "load"
	KindSchedule    Kind = "schedule"
	KindKiln        Kind = "kiln"
)

var kinds = []Kind{
	KindPair, KindFirst, KindSecond, KindGlaze, KindBatchFirst, KindBatchSecond, KindBatch,
	KindShelf, KindMethod, KindClay, KindLoad, KindPlace, KindBisque, KindSchedule, KindKiln,
}

// firing says that the kind is a property of a whole load, so that there is
// nothing to compare inside one.
func (k Kind) firing() bool { return k == KindLoad || k == KindSchedule || k == KindKiln }

// batch says that the kind is one batch of a glaze.
func (k Kind) batch() bool {
	return k == KindBatch || k == KindBatchFirst || k == KindBatchSecond
}

// Suspect is something that pieces may have in common. Glaze is a code, or
// the first of a pair whose second is Second; Name is a batch, load, shelf,
// clay, method, kiln or schedule as written; the shelf of a load has the load
// for a name and the shelf as Shelf. A single is no pair.
type Suspect struct {
	Kind   Kind   `json:"kind"`
	Glaze  string `json:"glaze,omitempty"`
	Second string `json:"second,omitempty"`
	Name   string `json:"name,omitempty"`
	Shelf  string `json:"shelf,omitempty"`
}

// joined is what a log is joined with, ready to ask.
type joined struct {
	mixes logbook.Mixes
	loads map[string]tiles.Load
}

func newJoined(batches []tiles.Batch, loads []tiles.Load) joined {
	j := joined{mixes: logbook.NewMixes(batches), loads: map[string]tiles.Load{}}
	for _, l := range loads {
		j.loads[tiles.Fold(l.Name)] = l
	}
	return j
}

// suspects appends everything a piece may share with others. Where a kind is
// not written, it stands with an empty name: such a piece is on neither side
// when that kind is weighed.
func (j joined) suspects(to []Suspect, p tiles.Piece) []Suspect {
	to = append(to, Suspect{Kind: KindGlaze, Glaze: p.First}, Suspect{Kind: KindFirst, Glaze: p.First})
	if p.Second != "" {
		to = append(to, Suspect{Kind: KindSecond, Glaze: p.Second},
			Suspect{Kind: KindPair, Glaze: p.First, Second: p.Second})
		if !p.Double() {
			to = append(to, Suspect{Kind: KindGlaze, Glaze: p.Second})
		}
	}
	to = j.batches(to, p)
	load := j.loads[tiles.Fold(p.Load)]
	place := Suspect{Kind: KindPlace}
	if p.Load != "" && p.Shelf != "" {
		place.Name, place.Shelf = p.Load, p.Shelf
	}
	return append(to, place,
		Suspect{Kind: KindShelf, Name: p.Shelf}, Suspect{Kind: KindMethod, Name: p.How},
		Suspect{Kind: KindClay, Name: p.Clay}, Suspect{Kind: KindBisque, Name: p.Bisque},
		Suspect{Kind: KindLoad, Name: p.Load}, Suspect{Kind: KindSchedule, Name: load.Schedule},
		Suspect{Kind: KindKiln, Name: load.Kiln})
}

func (j joined) batches(to []Suspect, p tiles.Piece) []Suspect {
	first, ok := j.mixes.On(p.First, p.Date)
	if ok {
		to = append(to, Suspect{Kind: KindBatch, Glaze: p.First, Name: first.Name},
			Suspect{Kind: KindBatchFirst, Glaze: p.First, Name: first.Name})
	}
	if p.Second == "" {
		return to
	}
	second, ok := j.mixes.On(p.Second, p.Date)
	if !ok {
		return to
	}
	to = append(to, Suspect{Kind: KindBatchSecond, Glaze: p.Second, Name: second.Name})
	if !p.Double() {
		to = append(to, Suspect{Kind: KindBatch, Glaze: p.Second, Name: second.Name})
	}
	return to
}

// implies says whether every piece with s must also have other, by what the
// words mean: a pair has its first glaze, a batch its glaze, a load its kiln.
func (s Suspect) implies(other Suspect) bool {
	switch other.Kind {
	case KindGlaze:
		return s.Glaze == other.Glaze && s.Glaze != "" || s.Second == other.Glaze && s.Second != ""
	case KindFirst:
		return s.Glaze == other.Glaze && (s.Kind == KindPair || s.Kind == KindBatchFirst)
	case KindSecond:
		return s.Kind == KindPair && s.Second == other.Glaze || s.Kind == KindBatchSecond && s.Glaze == other.Glaze
	case KindBatch:
		return s.Kind.batch() && s.Glaze == other.Glaze && s.Name == other.Name
	case KindSchedule, KindKiln:
		return s.Kind == KindLoad || s.Kind == KindPlace
	case KindLoad:
		return s.Kind == KindPlace && s.Name == other.Name
	case KindShelf:
		return s.Kind == KindPlace && s.Shelf == other.Name
	}
	return false
}

// before orders suspects that the figures cannot: by kind, then by name.
func (s Suspect) before(other Suspect) bool {
	if s.Kind != other.Kind {
		for _, k := range kinds {
			if k == s.Kind || k == other.Kind {
				return k == s.Kind
			}
		}
	}
	if s.Glaze != other.Glaze {
		return s.Glaze < other.Glaze
	}
	if s.Second != other.Second {
		return s.Second < other.Second
	}
	return s.Name+"\x00"+s.Shelf < other.Name+"\x00"+other.Shelf
}
