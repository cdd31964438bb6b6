package foresee

import "github.com/twodip/twodip/tiles/color"

// Kept is a guess that was, or would have been, made before its pair was
// fired, and what came out.
type Kept struct {
	Pair   Pair // as it came out
	Stage  int  // which firing it was in
	Guess  color.Lab
	Away   float64 // ΔE00
	Radius Radius  // what was said of such guesses then
}

// mostStages bounds how often the past is gone through; further firings are
// taken together.
const mostStages = 12

// Record goes through the firings in their order and guesses the pairs of each
// from those before it, as long as it may speak: how guesses would have done
// so far. The singles are taken as known from the start.
func Record(singles []color.Lab, stages [][]Pair) []Kept {
	var kept []Kept
	s := Studio{Singles: singles}
	for at, stage := range gathered(stages, mostStages) {
		f := Learn(s)
		if st := f.Standing(); st.Speaks {
			for _, p := range stage {
				g := f.Guess(p.First, p.Second)
				kept = append(kept, Kept{Pair: p, Stage: at, Guess: g, Away: color.DE00(g, p.Lab), Radius: st.Radius})
			}
		}
		s.Pairs = append(s.Pairs, stage...)
	}
	return kept
}

// gathered joins neighboring stages until there are at most that many.
func gathered(stages [][]Pair, most int) [][]Pair {
	if len(stages) <= most {
		return stages
	}
	out := make([][]Pair, most)
	for i, s := range stages {
		at := i * most / len(stages)
		out[at] = append(out[at], s...)
	}
	return out
}

// Held is how many of the guesses came out within their two radii.
func Held(kept []Kept) (half, ninety int) {
	for _, k := range kept {
		if k.Away <= k.Radius.Half {
			half++
		}
		if k.Away <= k.Radius.Ninety {
			ninety++
		}
	}
	return half, ninety
}
