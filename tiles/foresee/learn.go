package foresee

import "github.com/twodip/twodip/tiles/color"

// Foresight is what a studio's fired tiles teach about the others.
type Foresight struct {
	Studio
	Clay    color.Lab   // the clay that explains what was fired best
	Errors  []float64   // m: ΔE00 of each fired pair, left out with its reverse, from its guess
	Outs    []color.Lab // m: that guess
	index   index
	rules   [2]learnt
	kin     *kin
	weights weights
}

// learnt is a rule with what it leaves over.
type learnt struct {
	cover   *cover
	residue residue
}

// Learn learns from what has been fired. Its time grows as m³ + n²·m.
func Learn(s Studio) *Foresight {
	f := &Foresight{Studio: s, index: newIndex(s)}
	if len(s.Pairs) == 0 {
		return f
	}
	var ok bool
	if f.kin, ok = newKin(s); !ok {
		return f
	}
	f.rules[0].cover = fitCover(s, mixing(s))
	f.rules[1].cover, f.Clay = fitLayers(s)
	outs := make([][ways]color.Lab, len(s.Pairs))
	for i := range f.rules {
		r := &f.rules[i]
		y := r.cover.left()
		r.residue = newResidue(f.kin, y)
		for k, o := range leaveOut(r.cover, f.kin, r.residue, y, f.index) {
			outs[k][2*i], outs[k][2*i+1] = o.rule, o.residue
		}
	}
	f.weights = weigh(outs, s)
	for k, p := range s.Pairs {
		g := f.weights.blend(outs[k])
		f.Outs = append(f.Outs, g)
		f.Errors = append(f.Errors, color.DE00(g, p.Lab))
	}
	return f
}

// Guess is the color to expect of a pair, fired or not.
func (f *Foresight) Guess(first, second int) color.Lab {
	q := Pair{First: first, Second: second}
	near := make([]float64, len(f.Pairs))
	for k, p := range f.Pairs {
		near[k] = f.kinship(q, p)
	}
	var g [ways]color.Lab
	for i, r := range f.rules {
		g[2*i] = r.cover.of(first, second)
		g[2*i+1] = axesOf(g[2*i]).plus(r.residue.of(near)).lab()
	}
	return f.weights.blend(g)
}
