package foresee

import (
	"fmt"
	"testing"

	"github.com/twodip/twodip/tiles/color"
)

func kinds(t *testing.T) []kind {
	o := usual
	op := usual
	op.name, op.hiding, op.melt, op.surprise = "opaque", [2]float64{4, 0.5}, 0, 0
	op2 := op
	op2.name, op2.surprise = "opaque, surprising", 0.23
	return []kind{o, op, op2, chips(t), {name: "strange"}}
}

func TestStands(t *testing.T) {
	for _, o := range kinds(t) {
		for _, k := range []int{2, 4, 6} {
			var in50, in90, n, speaks int
			var gs, ss []float64
			worst := 0.0
			for seed := range uint64(40) {
				w := strange(16, seed)
				if o.n > 0 {
					w = o.make(2000 + seed)
				}
				s, unfired := w.part(k)
				f := Learn(s)
				st := f.Standing()
				if !st.Speaks {
					continue
				}
				speaks++
				var g1, s1 []float64
				for _, p := range unfired {
					g := f.Guess(p.First, p.Second)
					e := color.DE00(g, p.Lab)
					g1 = append(g1, e)
					s1 = append(s1, color.DE00(s.Singles[p.Second], p.Lab))
					if e <= st.Radius.Half {
						in50++
					}
					if e <= st.Radius.Ninety {
						in90++
					}
					n++
				}
				worst = max(worst, median(g1)/median(s1))
				gs = append(gs, g1...)
				ss = append(ss, s1...)
			}
			fmt.Printf("%s k=%d speaks %d/40 guess %.1f/%.1f second %.1f/%.1f in50 %.3f in90 %.3f worst %.2f\n", o.name, k, speaks, quantile(gs, .5), quantile(gs, .9), quantile(ss, .5), quantile(ss, .9), float64(in50)/float64(n), float64(in90)/float64(n), worst)
		}
	}
}
