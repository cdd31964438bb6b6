package foresee

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles/color"
)

// open is the cells of a studio that are not fired.
func open(s Studio) (cells []Cell) {
	x := newIndex(s)
	for i := range s.Singles {
		for j := range s.Singles {
			if i != j && x.of(i, j) < 0 {
				cells = append(cells, Cell{i, j})
			}
		}
	}
	return cells
}

func (w *world) fireMore(s Studio, cells []Cell) Studio {
	for _, c := range cells {
		s.Pairs = append(s.Pairs, Pair{c.First, c.Second, w.fire(w.pairs[c.First*w.n()+c.Second])})
	}
	return s
}

// Taking a cell as fired leaves the doubt that a fit with it fired has.
func TestSettledIsFired(t *testing.T) {
	s := usual.studio(5, 2)
	cells := open(s)
	before := Learn(s).doubt(cells)
	before.settle(17)
	s.Pairs = append(s.Pairs, Pair{First: cells[17].First, Second: cells[17].Second})
	after := Learn(s).doubt(cells)
	for i := range cells {
		assert.InDelta(t, after.p.At(i, i), before.p.At(i, i), 1e-9, "cell %d", i)
	}
}

// The first cell chosen takes the most doubt off all cells: tried one by one.
func TestTheFirstIsTheOneThatTellsMost(t *testing.T) {
	s := usual.studio(6, 2)
	f, cells := Learn(s), open(s)
	trace := func(d *doubtful) (sum float64) {
		for i := range cells {
			sum += d.p.At(i, i)
		}
		return sum
	}
	best, least := 0, 0.0
	for c := range cells {
		d := f.doubt(cells)
		d.settle(c)
		if left := trace(d); c == 0 || left < least {
			best, least = c, left
		}
	}
	assert.Equal(t, cells[best], f.Next(cells, 1, false)[0])
}

func TestNoBucketIsAskedForTwiceWhileOthersWait(t *testing.T) {
	s := usual.studio(8, 1)
	firsts, seconds := map[int]int{}, map[int]int{}
	chosen := Learn(s).Next(open(s), 16, false)
	for _, c := range chosen {
		firsts[c.First]++
		seconds[c.Second]++
	}
	assert.Len(t, chosen, 16)
	for g := range s.Singles {
		assert.LessOrEqual(t, firsts[g], 2, "glaze %d as first", g)
		assert.LessOrEqual(t, seconds[g], 2, "glaze %d as second", g)
	}
	couples := Learn(s).Next(open(s), 9, true)
	assert.Len(t, couples, 9)
	for k := 0; k < 8; k += 2 {
		if c := couples[k]; newIndex(s).of(c.Second, c.First) < 0 {
			assert.Equal(t, Cell{c.Second, c.First}, couples[k+1], "both orders, one after the other")
		}
	}
	assert.Empty(t, Learn(s).Next(nil, 5, false))
	assert.Len(t, Learn(s).Next(open(s)[:3], 5, false), 3)
}

// After one partner each way, tiles chosen by what they tell do as well as a
// balanced part of more tiles.
func TestChosenTilesTellMore(t *testing.T) {
	after := func(choose func(*world, Studio) Studio) float64 {
		var errors []float64
		for seed := range seeds() {
			w := usual.make(110000 + seed)
			s, _ := w.part(1)
			s = choose(w, s)
			f := Learn(s)
			for _, c := range open(s) {
				errors = append(errors, min(color.DE00(f.Guess(c.First, c.Second), w.pairs[c.First*w.n()+c.Second]), farOff))
			}
		}
		mean := 0.0
		for _, e := range errors {
			mean += e / float64(len(errors))
		}
		return mean
	}
	part := func(tiles int) float64 {
		return after(func(w *world, s Studio) Studio {
			cells := open(s)
			w.random.Shuffle(len(cells), func(i, j int) { cells[i], cells[j] = cells[j], cells[i] })
			return w.fireMore(s, balanced(cells, w.n(), tiles))
		})
	}
	chosen := after(func(w *world, s Studio) Studio { return w.fireMore(s, Learn(s).Next(open(s), 32, false)) })
	same, more := part(32), part(40)
	t.Logf("mean ΔE00 of the others: 32 chosen tiles %.2f, 32 of a balanced part %.2f, 40 of one %.2f", chosen, same, more)
	assert.Less(t, chosen, same)
}

// balanced is a part in which no glaze is on more tiles than its share.
func balanced(cells []Cell, n, count int) (part []Cell) {
	b := newBalance(cells, n, count)
	for len(part) < count {
		for _, c := range cells {
			if len(part) < count && b.allows(c) {
				b.take(c)
				part = append(part, c)
			}
		}
		b.widen()
	}
	return part
}
