package foresee

import (
	"fmt"
	"os"
	"testing"
	"time"

	"github.com/twodip/twodip/tiles/color"
)

func (w *world) fireMore(s Studio, cells []Cell) Studio {
	for _, c := range cells {
		s.Pairs = append(s.Pairs, Pair{c.First, c.Second, w.fire(w.pairs[c.First*w.n()+c.Second])})
	}
	return s
}

// open cells of a studio
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

func score(w *world, f *Foresight, cells []Cell) (e []float64) {
	for _, c := range cells {
		e = append(e, color.DE00(f.Guess(c.First, c.Second), w.pairs[c.First*w.n()+c.Second]))
	}
	return e
}

func TestNextSaves(t *testing.T) {
	for _, extra := range []int{1, 2, 3} {
		var part, next []float64
		for seed := range uint64(30) {
			w := usual.make(3000 + seed)
			s, _ := w.part(1 + extra)
			part = append(part, score(w, Learn(s), open(s))...)
			w = usual.make(3000 + seed)
			s, _ = w.part(1)
			s = w.fireMore(s, Learn(s).Next(open(s), 16*extra))
			next = append(next, score(w, Learn(s), open(s))...)
		}
		fmt.Printf("1+%d: part %.2f/%.2f next %.2f/%.2f\n", extra, quantile(part, .5), quantile(part, .9), quantile(next, .5), quantile(next, .9))
	}
}

func TestBig(t *testing.T) {
	o := usual
	o.n = 60
	w := o.make(1)
	s, _ := w.part(17)
	s.Pairs = s.Pairs[:1000]
	start := time.Now()
	f := Learn(s)
	fmt.Println("learn", time.Since(start))
	for _, c := range open(s) {
		f.Guess(c.First, c.Second)
	}
	fmt.Println("guess", time.Since(start))
	f.Standing()
	f.Next(open(s), 20)
	fmt.Println("next", time.Since(start), len(open(s)))
	_ = os.Stdout
}
