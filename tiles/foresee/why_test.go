package foresee

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles/color"
)

func TestSayPull(t *testing.T) {
	for _, c := range []struct {
		pull color.Lab
		want string
	}{
		{color.Lab{L: 0.5, A: -0.9, B: 0.2}, ""},
		{color.Lab{B: -6}, "bluer"},
		{color.Lab{L: 4, B: -6}, "bluer and lighter"},
		{color.Lab{L: -2, A: 6}, "redder"},
		{color.Lab{L: -5, A: -4}, "darker and greener"},
	} {
		assert.Equal(t, c.want, SayPull(c.pull))
	}
}

// The parts of an explanation add up to the guess, the share is that of the
// glaze, and neighbors that came out bluer draw bluer.
func TestWhyAddsUp(t *testing.T) {
	o := usual
	o.surprise = 0
	s := o.studio(11, 5)
	for k, p := range s.Pairs {
		if p.Second == 3 {
			s.Pairs[k].Lab.B -= 15
		}
	}
	f := Learn(s)
	of3, near := 0.0, 0.0
	for _, c := range open(s) {
		w := f.Why(c.First, c.Second)
		assert.InDelta(t, 0, square(w.Guess, axesOf(w.Rule).plus(axesOf(w.Pull)).lab()), 1e-12)
		assert.Equal(t, 5, w.From)
		if c.Second == 3 {
			assert.Contains(t, SayPull(w.Pull), "bluer", "%v", w.Pull)
			of3, near = of3+share(f, w.Near), near+1
		}
	}
	assert.Greater(t, of3/near, 0.6, "share of the nearest with the same second")
}

// share is the share of fired pairs whose second is glaze 3.
func share(f *Foresight, pairs []int) (of float64) {
	for _, k := range pairs {
		if f.Pairs[k].Second == 3 {
			of += 1 / float64(len(pairs))
		}
	}
	return of
}
