package trace

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/logbook"
)

// studio is an invented studio that glazes and fires at random.
type studio struct {
	*rand.Rand
	Studio
	rows, perLoad int
}

// plant is a suspect and the chance of a fault it brings.
type plant struct {
	suspect Suspect
	rate    float64
}

// background is the share of pieces that come out faulty for no reason at
// all, over the three kinds of fault.
const background = 0.02

var simulated = []string{"crawling", "pinholing", "running"}

func newStudio(seed uint64, rows int) studio {
	s := studio{Rand: rand.New(rand.NewPCG(seed, 7)), rows: rows, perLoad: 40}
	for i := range 12 {
		s.Glazes = append(s.Glazes, tiles.Glaze{Code: string(rune('A' + i)), Name: "Glaze " + string(rune('A'+i))})
	}
	days := rows/15 + 1
	for _, g := range s.Glazes {
		for n, day := 1, 0; day <= days; n++ {
			s.Batches = append(s.Batches, tiles.Batch{Glaze: g.Code, Name: fmt.Sprint(n), MixedOn: date(day)})
			day += 10 + s.IntN(30)
		}
	}
	return s
}

func date(day int) string {
	return time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, day).Format(time.DateOnly)
}

// pieces glazes and fires; planted pieces come out faulty at the plant's rate.
func (s studio) pieces(p *plant) []tiles.Piece {
	list := make([]tiles.Piece, s.rows)
	for i := range list {
		list[i] = s.piece(i)
	}
	var hit map[int]bool
	if p != nil {
		hit = s.force(list, p)
	}
	for i := range list {
		switch {
		case hit[i] && s.Float64() < p.rate:
			list[i].Faults = []string{simulated[0]}
		case s.Float64() < background:
			list[i].Faults = []string{simulated[s.IntN(len(simulated))]}
		default:
			list[i].Result = "good"
		}
	}
	return list
}

func (s studio) piece(i int) tiles.Piece {
	p := tiles.Piece{
		Date: date(i / 15), Load: fmt.Sprint(1 + i/s.perLoad), Shelf: []string{"top", "middle", "low"}[s.IntN(3)],
		Clay: []string{"white", "buff"}[s.IntN(2)], How: "dipped", Line: i + 2,
	}
	p.First = s.Glazes[s.IntN(12)].Code
	if s.Float64() < 0.8 {
		p.Second = s.Glazes[s.IntN(12)].Code
	}
	return p
}

// planted is how many pieces carry the planted suspect.
const planted = 20

// force gives exactly the planted number of pieces the suspect, and takes it
// from all others.
func (s studio) force(list []tiles.Piece, p *plant) map[int]bool {
	hit := map[int]bool{}
	mixes := logbook.NewMixes(s.Batches)
	start := s.IntN(max(1, len(list)-3*planted))
	for _, at := range s.Perm(min(3*planted, len(list)-start)) {
		if len(hit) < planted {
			hit[start+at] = true
		}
	}
	batch, _ := mixes.On("A", list[start].Date)
	switch p.suspect.Kind {
	case KindBatch:
		p.suspect.Glaze, p.suspect.Name = "A", batch.Name
		s.forceBatch(list, hit, mixes, batch.Name)
	case KindPair:
		p.suspect.Glaze, p.suspect.Second = "A", "B"
		for i := range list {
			for !hit[i] && list[i].First == "A" && list[i].Second == "B" {
				list[i].First, list[i].Second = s.piece(i).First, s.piece(i).Second
			}
			if hit[i] {
				list[i].First, list[i].Second = "A", "B"
			}
		}
	case KindShelf:
		p.suspect.Name = "corner"
		for i := range hit {
			list[i].Shelf = "corner"
		}
	case KindLoad:
		p.suspect.Name = "bad"
		for i := range hit {
			list[i].Load = "bad"
		}
	}
	return hit
}

// forceBatch keeps glaze A off every unplanted piece of the batch's days and
// puts it, first or second, on planted ones.
func (s studio) forceBatch(list []tiles.Piece, hit map[int]bool, mixes logbook.Mixes, name string) {
	for i := range list {
		in, ok := mixes.On("A", list[i].Date)
		if !ok || in.Name != name {
			delete(hit, i)
			continue
		}
		for list[i].Has("A") {
			list[i].First, list[i].Second = s.piece(i).First, s.piece(i).Second
		}
	}
	for i := 0; i < len(list) && len(hit) < planted; i++ {
		if in, ok := mixes.On("A", list[i].Date); ok && in.Name == name {
			hit[i] = true
		}
	}
	for i := range hit {
		if s.IntN(2) == 0 {
			list[i].First = "A"
		} else {
			list[i].Second = "A"
		}
	}
}

func logOf(pieces []tiles.Piece) logbook.Log {
	return func(yield func(tiles.Piece) bool) {
		for _, p := range pieces {
			if !yield(p) {
				return
			}
		}
	}
}

// logs is how many logs a simulation makes: more where a long run is asked for.
func logs(n int) int {
	if os.Getenv("TWODIP_LONG") != "" {
		return n * 20
	}
	return n
}

// rowsOf spreads the sizes of logs evenly, by order of magnitude, over 200 to 5,000.
func rowsOf(i, n int) int {
	return int(200 * math.Pow(25, float64(i)/float64(n-1)))
}

// A planted fault must be found first: 20 pieces at 60 % in 200 to 5,000 rows
// over a background of 2 %. And nobody else may be named beside it: a bad firing
// must not accuse the glazes that were in it.
func TestPlantedFaultsAreFoundFirst(t *testing.T) {
	for _, kind := range []Kind{KindBatch, KindPair, KindShelf, KindLoad} {
		n := logs(60)
		first, tied, beside := 0, 0, 0
		for i := range n {
			s := newStudio(uint64(i+1), rowsOf(i, n))
			p := &plant{Suspect{Kind: kind}, 0.6}
			pieces := s.pieces(p)
			r := Faults(logOf(pieces), s.Studio)
			if named(r) > 1 {
				beside++
			}
			switch rank(r, p.suspect) {
			case 1:
				first++
			case 2:
				tied++
			}
		}
		share := float64(first+tied) / float64(n)
		t.Logf("planted %s: first in %d of %d logs, and in %d more on the very same pieces as the first (%.1f %%); another named beside it in %d",
			kind, first, n, tied, 100*share, beside)
		assert.GreaterOrEqual(t, share, 0.95)
		assert.LessOrEqual(t, float64(beside), 0.05*float64(n))
	}
}

// named counts the suspects named for all faults.
func named(r Report) int {
	n := 0
	for _, f := range r.Faults {
		n += len(f.Found)
	}
	return n
}

// rank is 1 where the suspect is named first for the planted fault, 2 where
// it is on the very same pieces as the first, otherwise 0.
func rank(r Report, s Suspect) int {
	for _, f := range r.Faults {
		if f.Name != simulated[0] || len(f.Found) == 0 {
			continue
		}
		if f.Found[0].Suspect == s {
			return 1
		}
		for _, same := range f.Found[0].Same {
			if same == s {
				return 2
			}
		}
	}
	return 0
}

// Where nothing is planted nobody may be named, in at most 5 % of logs.
func TestNothingPlantedNobodyNamed(t *testing.T) {
	n := logs(200)
	accused := 0
	for i := range n {
		s := newStudio(uint64(1000+i), rowsOf(i, n))
		if named(Faults(logOf(s.pieces(nil)), s.Studio)) > 0 {
			accused++
		}
	}
	t.Logf("nothing planted: a suspect named in %d of %d logs (%.1f %%)", accused, n, 100*float64(accused)/float64(n))
	assert.LessOrEqual(t, float64(accused)/float64(n), 0.05)
}
