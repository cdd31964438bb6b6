package foresee

import (
	"cmp"
	"math"
	"slices"

	"github.com/twodip/twodip/tiles/color"
)

// Why is what a guess stands on.
type Why struct {
	Guess color.Lab
	Rule  color.Lab // what the two rules make of it, in their weights, without what was learnt from neighbors
	Share float64   // how well the second covers, 0–1, by the rule of layers
	From  int       // fired pairs with the same second
	Pull  color.Lab // guess less rule: where the neighbors drew it, ΔL*, Δa*, Δb*
	Near  []int     // the fired pairs that drew it most, by their places, three at most
}

// Why explains a guess.
func (f *Foresight) Why(first, second int) Why {
	w := Why{Guess: f.Guess(first, second)}
	if f.kin == nil {
		return w
	}
	var rule axes
	for i, r := range f.rules {
		rule = rule.plus(axesOf(r.cover.of(first, second)).times(f.weights[2*i] + f.weights[2*i+1]))
	}
	w.Rule = rule.lab()
	w.Pull = axesOf(w.Guess).less(rule).lab()
	layers := f.rules[1].cover
	w.Share, w.From = shareOf(layers.best[second]), len(layers.bySecond[second])
	w.Near = f.nearest(Pair{First: first, Second: second}, axesOf(w.Pull))
	return w
}

// nearest is the three fired pairs whose residues draw a guess most the way it
// was drawn.
func (f *Foresight) nearest(q Pair, way axes) []int {
	draw := make([]float64, len(f.Pairs))
	for k, p := range f.Pairs {
		for i, r := range f.rules {
			by := r.residue.pull[k].times(f.kinship(q, p) * f.weights[2*i+1])
			for a := range 3 {
				draw[k] += by[a] * way[a]
			}
		}
	}
	at := make([]int, len(draw))
	for k := range at {
		at[k] = k
	}
	slices.SortStableFunc(at, func(a, b int) int { return cmp.Compare(draw[b], draw[a]) })
	return slices.DeleteFunc(at[:min(3, len(at))], func(k int) bool { return draw[k] <= 0 })
}

// SayPull says where neighbors drew a guess, in a potter's words: "bluer and
// darker"; "" where they drew it by less than an eye sees.
func SayPull(pull color.Lab) string {
	type way struct {
		by         float64
		more, less string
	}
	ways := []way{{pull.L, "lighter", "darker"}, {pull.A, "redder", "greener"}, {pull.B, "yellower", "bluer"}}
	slices.SortStableFunc(ways, func(a, b way) int { return cmp.Compare(math.Abs(b.by), math.Abs(a.by)) })
	said := ""
	for _, w := range ways[:2] {
		word := w.more
		if w.by < 0 {
			word = w.less
		}
		switch {
		case math.Abs(w.by) < seen:
		case said == "":
			said = word
		case math.Abs(w.by) > math.Abs(ways[0].by)/2:
			said += " and " + word
		}
	}
	return said
}
