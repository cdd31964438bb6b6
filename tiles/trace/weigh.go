package trace

import (
	"math"

	"github.com/twodip/twodip/tiles/trace/evidence"
)

// judge asks whether a candidate's difference is still there inside the
// groups. Gone wants the groups to speak against it: the difference over all
// pieces must lie outside what they allow.
func judge(s evidence.Strata, whole evidence.Table, level float64) Inside {
	telling := s.Telling()
	in := Inside{Groups: len(telling), P: 1, Holds: Unclear}
	odds, ok := telling.Odds()
	if len(telling) == 0 || !ok {
		return in
	}
	test := telling.Exact()
	in.Odds, in.P, in.logP = odds, test.P, test.LogP
	overall, _ := evidence.Strata{whole}.Odds()
	switch {
	case in.P <= level && odds.Value > 1:
		in.Holds = Holds
	case odds.High < overall.Value && !math.IsInf(odds.High, 1):
		in.Holds = Gone
	}
	return in
}

// weigh sorts one fault's candidates, strongest first, into those that stand
// on their own and those that only follow from one of these, from the firing
// or from whose pieces they are.
func (c crowd) weigh(candidates []Finding) (found, gone []Finding) {
	var held []int // the bits of the found
	for i, one := range candidates {
		one.Makers = c.makers(i, one)
		if !one.Suspect.Kind.firing() {
			in := judge(c.strata(i, still{load: true}), one.Table, Level)
			one.Inside, one.Alone = &in, c.alone(i)
		}
		switch {
		case one.Inside != nil && one.Inside.Holds == Gone, one.Makers.Holds != Holds:
			gone = append(gone, one)
		case !c.follows(i, one, found, held, len(candidates)):
			found, held = append(found, one), append(held, i)
		}
	}
	return found, gone
}

// makers asks whether a difference is still there among the pieces of one maker
// at a time: hands differ, and each has its own clay, its own way and its own
// favorite glazes. Where nobody wrote who made what, all are one.
func (c crowd) makers(i int, one Finding) Inside {
	return judge(c.strata(i, still{maker: true}), one.Table, Level)
}

// follows says whether a candidate needs no place of its own beside those
// found before it, and notes it with the one it belongs to.
func (c crowd) follows(i int, one Finding, found []Finding, held []int, asked int) bool {
	level := Level / float64(asked)
	var mask uint64
	for n, h := range held {
		mask |= 1 << h
		switch judge(c.strata(i, still{held: 1 << h}), one.Table, level).Holds {
		case Gone:
			found[n].Follow = append(found[n].Follow, one.Suspect)
			return true
		case Unclear:
			c.unclear(&found[n], one.Suspect, i, h)
			return true
		}
	}
	if len(held) == 0 {
		return false
	}
	all := judge(c.strata(i, still{load: !one.Suspect.Kind.firing(), held: mask}), one.Table, level)
	if all.Holds != Holds {
		last := len(found) - 1
		found[last].Follow = append(found[last].Follow, one.Suspect)
		return true
	}
	return false
}

// nearlyAll is the share of their pieces that two suspects must share before
// a log with too few others is said to be unable to tell them apart.
const nearlyAll = 0.8

// unclear notes a candidate that has too few pieces of its own: where it has
// nearly the same pieces, this log cannot tell the two apart; otherwise it
// follows.
func (c crowd) unclear(f *Finding, s Suspect, a, b int) {
	both, either := 0, 0
	for at, n := range c {
		if at.has>>a&1 == 1 || at.has>>b&1 == 1 {
			either += n.pieces
			if at.has>>a&1 == at.has>>b&1 {
				both += n.pieces
			}
		}
	}
	if float64(both) >= nearlyAll*float64(either) {
		f.Same = append(f.Same, s)
		return
	}
	f.Follow = append(f.Follow, s)
}
