package foresee

import (
	"fmt"
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/twodip/twodip/tiles/color"
)

func quantile(v []float64, p float64) float64 {
	if len(v) == 0 {
		return 0
	}
	v = slices.Clone(v)
	slices.Sort(v)
	return v[min(len(v)-1, int(p*float64(len(v))))]
}

func TestTable(t *testing.T) {
	seeds, _ := strconv.Atoi(os.Getenv("SEEDS"))
	if seeds == 0 {
		seeds = 10
	}
	for _, k := range []int{1, 2, 3, 4, 6} {
		var second, op, mixr, lay, all []float64
		for seed := range uint64(seeds) {
			w := usual.make(1000 + seed)
			s, unfired := w.part(k)
			f := Learn(s)
			for _, p := range unfired {
				second = append(second, color.DE00(s.Singles[p.Second], p.Lab))
				op = append(op, color.DE00(f.rules[1].cover.of(p.First, p.Second), p.Lab))
				wts := f.weights
				f.weights = weights{0, 1, 0, 0}
				mixr = append(mixr, color.DE00(f.Guess(p.First, p.Second), p.Lab))
				f.weights = weights{0, 0, 0, 1}
				lay = append(lay, color.DE00(f.Guess(p.First, p.Second), p.Lab))
				f.weights = wts
				all = append(all, color.DE00(f.Guess(p.First, p.Second), p.Lab))
			}
		}
		fmt.Printf("k=%d", k)
		for _, v := range [][]float64{second, op, mixr, lay, all} {
			fmt.Printf("  %4.1f/%4.1f", quantile(v, .5), quantile(v, .9))
		}
		fmt.Println()
	}
}
