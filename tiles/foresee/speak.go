package foresee

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"github.com/twodip/twodip/tiles/color"
)

// When a wall may be guessed at all.
const (
	fewest  = 16   // fired pairs
	sure    = 0.05 // one-sided sign test, against guessing the second's single
	gaining = 0.15 // the least gain of the median over that guess, as a share
	seen    = 1.0  // and in ΔE00: what gains less is of no use to an eye
	more    = 12   // tiles that would tell, where it is silent
)

// Standing is how well guesses do on this wall.
type Standing struct {
	Speaks bool
	Why    string  // in one sentence
	Fired  int     // pairs learnt from
	Median float64 // ΔE00 of the left-out pairs from their guesses; 0 = none
	Second float64 // the same for guessing the second's single
	Chance float64 // of as many pairs in favor by luck alone, 0–1
	Radius Radius
}

// Standing says whether the wall may be guessed, and how well that does.
func (f *Foresight) Standing() Standing {
	st := Standing{Fired: len(f.Pairs), Chance: 1}
	if len(f.Errors) == 0 {
		st.Why = tooFew
		return st
	}
	plain := make([]float64, len(f.Pairs))
	for k, p := range f.Pairs {
		plain[k] = color.DE00(f.Singles[p.Second], p.Lab)
	}
	st.Median, st.Second = median(f.Errors), median(plain)
	st.Chance = signTest(f.votes(plain))
	st.Radius = radiusOf(f.Errors)
	st.Speaks = st.Fired >= fewest && st.Chance <= sure && st.Second-st.Median >= max(gaining*st.Second, seen)
	st.Why = st.why()
	return st
}

// With so many fired pairs it is no longer for want of tiles.
const enough = 100

const noGain = "guesses do no better here than going by the 2nd glaze alone, so none are made"

var tooFew = fmt.Sprintf("too few tiles to guess from; %d more would tell", more)

func (st Standing) why() string {
	switch {
	case !st.Speaks && st.Fired >= enough:
		return noGain
	case !st.Speaks:
		return tooFew
	}
	return fmt.Sprintf("guessed from all the others, half of the %d fired pairs came out within %.1f (ΔE00) and nine in ten within %.1f; going by the 2nd glaze alone, half came out within %.1f",
		st.Fired, st.Radius.Half, st.Radius.Ninety, st.Second)
}

// votes are the pairs, both orders as one, that the guess does better on than
// the second's single, and those that it does worse on.
func (f *Foresight) votes(plain []float64) (better, worse int) {
	for k := range f.Pairs {
		b := f.index.block(f.Studio, k)
		if len(b) == 2 && b[1] < b[0] {
			continue
		}
		gain := 0.0
		for _, row := range b {
			gain += plain[row] - f.Errors[row]
		}
		switch {
		case gain > 0:
			better++
		case gain < 0:
			worse++
		}
	}
	return better, worse
}

// signTest is the chance of at least so many better ones were both as likely.
// Source: the exact one-sided sign test, Conover, Practical Nonparametric
// Statistics, 3rd ed. (1999), 3.4.
func signTest(better, worse int) float64 {
	if better == 0 {
		return 1
	}
	n := float64(better + worse)
	return 1 - distuv.Binomial{N: n, P: 0.5}.CDF(float64(better-1))
}

func median(v []float64) float64 {
	v = slices.Clone(v)
	slices.Sort(v)
	if len(v) == 0 {
		return math.NaN()
	}
	return (v[(len(v)-1)/2] + v[len(v)/2]) / 2
}
