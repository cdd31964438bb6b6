package foresee

import (
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Cell is a pair by the places of its glazes, fired or not.
type Cell struct{ First, Second int }

// mostOpen bounds the cells that are weighed against one another: beyond it
// they are thinned evenly, for time and memory grow with its square.
const mostOpen = 1600

// Next is the pairs, at most count, that would tell most about all open cells
// if they were fired next; the one that tells most first. Open are the cells
// that may be fired and are not. No glaze is first, or second, on more of them
// than an even share, so that buckets empty evenly. With both, a pair's reverse
// follows it where that is open, too.
//
// Each is the one that takes most doubt off all open cells together, given the
// fired pairs and those chosen before it: the largest Σ_q P²_qc / (P_cc + σ²),
// with P the covariance of the open cells given the fired pairs, and σ² what
// is a pair's own. Source: A-optimal design, Pukelsheim, Optimal Design of
// Experiments (2006), chapter 6; greedily, as MacKay, Neural Computation 4
// (1992) 590–604.
func (f *Foresight) Next(open []Cell, count int, both bool) []Cell {
	open = thinned(open, mostOpen)
	if len(open) == 0 || count < 1 {
		return nil
	}
	p := f.doubt(open)
	b := newBalance(open, len(f.Singles), count)
	var chosen []Cell
	take := func(c int) {
		b.take(open[c])
		chosen = append(chosen, open[c])
		p.settle(c)
	}
	for len(chosen) < count {
		c := p.best(func(i int) bool { return b.allows(open[i]) })
		if c < 0 {
			if !b.widen() {
				break
			}
			continue
		}
		take(c)
		reverse := slices.Index(open, Cell{open[c].Second, open[c].First})
		if both && reverse >= 0 && !p.gone[reverse] && len(chosen) < count {
			take(reverse)
		}
	}
	return chosen
}

func thinned[T any](all []T, most int) []T {
	if len(all) <= most {
		return all
	}
	out := make([]T, most)
	for i := range out {
		out[i] = all[i*len(all)/most]
	}
	return out
}

// doubtful is the covariance of the open cells, q × q, and which are settled.
type doubtful struct {
	p    *mat.Dense
	q    int
	gone []bool
}

// doubt is the covariance of the open cells given the fired pairs:
// K_qq − K_qf K⁻¹ K_fq. Source: Rasmussen and Williams (2006), equation 2.24.
func (f *Foresight) doubt(open []Cell) *doubtful {
	q, m := len(open), len(f.Pairs)
	d := &doubtful{p: mat.NewDense(q, q, nil), q: q, gone: make([]bool, q)}
	if m > 0 && f.kin != nil {
		near := mat.NewDense(q, m, nil)
		for i, c := range open {
			for k, p := range f.Pairs {
				near.Set(i, k, f.kinship(c.pair(), p))
			}
		}
		var pulled mat.Dense
		pulled.Mul(near, f.kin.inverse)
		d.p.Mul(&pulled, near.T())
	}
	for i := range q {
		row := d.p.RawRowView(i)
		for j := range row {
			row[j] = f.kinship(open[i].pair(), open[j].pair()) - row[j]
		}
	}
	return d
}

func (c Cell) pair() Pair { return Pair{First: c.First, Second: c.Second} }

// best is the cell that tells most among those allowed; −1 = none is.
func (d *doubtful) best(allowed func(int) bool) int {
	best, most := -1, 0.0
	for c := range d.q {
		if d.gone[c] || !allowed(c) {
			continue
		}
		sum := 0.0
		for _, v := range d.p.RawRowView(c) {
			sum += v * v
		}
		if told := sum / (d.p.At(c, c) + itself); best < 0 || told > most {
			best, most = c, told
		}
	}
	return best
}

// settle takes off what firing cell c will tell.
func (d *doubtful) settle(c int) {
	row := append([]float64(nil), d.p.RawRowView(c)...)
	by := row[c] + itself
	for i := range d.q {
		f := row[i] / by
		if f == 0 {
			continue
		}
		to := d.p.RawRowView(i)
		for j, v := range row {
			to[j] -= f * v
		}
	}
	d.gone[c] = true
}
