package foresee

import "testing"

// 60 glazes, 1,000 pairs fired: everything guessed.
func BenchmarkEveryGuessOf60Glazes(b *testing.B) {
	o := usual
	o.n = 60
	s := o.studio(1, 17)
	s.Pairs = s.Pairs[:1000]
	cells := open(s)
	b.ReportAllocs()
	for b.Loop() {
		f := Learn(s)
		f.Standing()
		for _, c := range cells {
			f.Guess(c.First, c.Second)
		}
	}
}
