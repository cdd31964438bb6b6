package foresee

import "github.com/twodip/twodip/tiles/color"

// Studio is what has been fired: one color for each of n glazes alone, and m
// pairs. A pair is there once; what was fired several times is averaged first.
type Studio struct {
	Singles []color.Lab // n: one coat of each glaze on the clay
	Pairs   []Pair      // m
}

// Pair is a fired pair, by the places of its glazes in Singles, and its color
// where the second lies over the first. First and Second differ.
type Pair struct {
	First, Second int
	Lab           color.Lab
}

// index finds a fired pair by its glazes; −1 = not fired.
type index struct {
	n  int
	at []int
}

func newIndex(s Studio) index {
	x := index{n: len(s.Singles), at: make([]int, len(s.Singles)*len(s.Singles))}
	for k := range x.at {
		x.at[k] = -1
	}
	for k, p := range s.Pairs {
		x.at[p.First*x.n+p.Second] = k
	}
	return x
}

func (x index) of(first, second int) int { return x.at[first*x.n+second] }

// block is a fired pair and, where it is fired too, its reverse: the two are
// so much alike that they are left out together.
func (x index) block(s Studio, k int) []int {
	p := s.Pairs[k]
	if r := x.of(p.Second, p.First); r >= 0 {
		return []int{k, r}
	}
	return []int{k}
}
