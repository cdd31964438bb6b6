package color

import (
	"cmp"
	"math"
	"slices"
)

// Place is a color somebody looks for, and whose it is. Of may occur more than
// once: a mottled tile is found by its mean or by either of its main colors.
type Place struct {
	Lab  Lab
	Of   int // the caller's own number of the thing
	Part int // 0 its mean, 1 and 2 its main colors
}

// Match is a place and how far it is from what was asked for.
type Match struct {
	Place
	DE00 float64
}

// Places can be searched for the nearest colors.
type Places struct{ byLight []Place }

// NewPlaces takes the places in any order.
func NewPlaces(all []Place) *Places {
	p := &Places{slices.Clone(all)}
	slices.SortFunc(p.byLight, func(a, b Place) int { return cmp.Compare(a.Lab.L, b.Lab.L) })
	return p
}

// steepest is the largest S_L of CIEDE2000, at L* 0 and 100, rounded up: two
// colors are at least |ΔL*| / steepest apart.
const steepest = 1.7471

// Nearest is the k things nearest to a color by ΔE00, each once, by the
// nearest of its places; the nearest first, and of equals the lower number.
//
// It is exact. Places are visited outwards from the color's own lightness, and
// no further than the k-th best could be beaten.
func (p *Places) Nearest(c Lab, k int) []Match {
	best := nearest{most: k}
	up, _ := slices.BinarySearchFunc(p.byLight, c.L, func(q Place, l float64) int { return cmp.Compare(q.Lab.L, l) })
	down := up - 1
	for k > 0 {
		above, below := math.Inf(1), math.Inf(1)
		if up < len(p.byLight) {
			above = p.byLight[up].Lab.L - c.L
		}
		if down >= 0 {
			below = c.L - p.byLight[down].Lab.L
		}
		if math.Min(above, below) > best.limit()*steepest || math.IsInf(math.Min(above, below), 1) {
			break
		}
		if above <= below {
			best.offer(c, p.byLight[up])
			up++
		} else {
			best.offer(c, p.byLight[down])
			down--
		}
	}
	return best.found
}

// nearest keeps the best matches so far, in order.
type nearest struct {
	most  int
	found []Match
}

// limit is the distance that is no longer worth looking at.
func (n *nearest) limit() float64 {
	if len(n.found) < n.most {
		return math.Inf(1)
	}
	return n.found[len(n.found)-1].DE00
}

func (n *nearest) offer(c Lab, q Place) {
	if leastDE00(c, q.Lab) > n.limit() {
		return
	}
	m := Match{q, DE00(c, q.Lab)}
	if i := slices.IndexFunc(n.found, func(f Match) bool { return f.Of == q.Of }); i >= 0 {
		if compareMatches(n.found[i], m) <= 0 {
			return
		}
		n.found = slices.Delete(n.found, i, i+1)
	}
	at, _ := slices.BinarySearchFunc(n.found, m, compareMatches)
	n.found = slices.Insert(n.found, at, m)
	if len(n.found) > n.most {
		n.found = n.found[:n.most]
	}
}

func compareMatches(a, b Match) int {
	return cmp.Or(cmp.Compare(a.DE00, b.DE00), cmp.Compare(a.Of, b.Of), cmp.Compare(a.Part, b.Part))
}

// leastDE00 is never more than DE00 and far quicker: S_L is exact, S_C and S_H
// are at most 1 + 0.045·1.5·C̄ (G is at most ½, T at most 1.93), and the
// rotation takes away at most sin 60° of the rest.
func leastDE00(p, q Lab) float64 {
	off := (p.L+q.L)/2 - 50
	sL := 1 + 0.015*off*off/math.Sqrt(20+off*off)
	s := 1 + 0.03375*(p.Chroma()+q.Chroma())
	l, a, b := (p.L-q.L)/sL, (p.A-q.A)/s, (p.B-q.B)/s
	const left = 1 - 0.86602540378443865 // 1 − sin 60°
	return math.Sqrt(l*l+left*(a*a+b*b)) * (1 - 1e-12)
}
