package foresee

import (
	"cmp"
	"fmt"
	"slices"
	"testing"

	"github.com/twodip/twodip/tiles/color"
)

func TestToward(t *testing.T) {
	for _, k := range []int{2, 4} {
		hits := map[string]int{}
		n := 0
		for seed := range uint64(30) {
			w := usual.make(4000 + seed)
			s, _ := w.part(k)
			f := Learn(s)
			cells := open(s)
			var g []color.Lab
			for _, c := range cells {
				g = append(g, f.Guess(c.First, c.Second))
			}
			for range 20 {
				tc := cells[w.random.IntN(len(cells))]
				target := w.pairs[tc.First*w.n()+tc.Second]
				try := func(name string, by func(i int) float64) {
					order := make([]int, len(cells))
					for i := range order {
						order[i] = i
					}
					slices.SortFunc(order, func(a, b int) int { return cmp.Compare(by(a), by(b)) })
					for _, i := range order[:6] {
						if color.DE00(target, w.pairs[cells[i].First*w.n()+cells[i].Second]) <= 4 {
							hits[name]++
							break
						}
					}
				}
				n++
				rnd := make([]float64, len(cells))
				for i := range rnd {
					rnd[i] = w.random.Float64()
				}
				try("random", func(i int) float64 { return rnd[i] })
				try("second", func(i int) float64 { return color.DE00(target, s.Singles[cells[i].Second]) })
				try("guess", func(i int) float64 { return color.DE00(target, g[i]) })
			}
		}
		fmt.Println("k", k, n, float64(hits["random"])/float64(n), float64(hits["second"])/float64(n), float64(hits["guess"])/float64(n))
	}
}
