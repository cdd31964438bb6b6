package foresee

import (
	"slices"

	"github.com/twodip/twodip/tiles/color"
)

// leftOut is what a fired pair would have been guessed as, had neither it nor
// its reverse been fired: by the rule alone, and with the residue.
type leftOut struct{ rule, residue color.Lab }

// leaveOut guesses every fired pair from the others. The rule's shares are
// chosen again without the block; the residue follows in closed form.
//
// With K the covariance of the fired pairs, B the rows left out and y the
// residues, what came out less what is guessed is (K⁻¹_BB)⁻¹ · (K⁻¹y)_B.
// Source: Rasmussen and Williams (2006), equation 5.12, for blocks: the
// inverse of a partitioned matrix, their equation A.12. The residues of the
// others are those of the newly chosen shares, so that nothing of the block is
// left in them.
func leaveOut(c *cover, k *kin, r residue, y []axes, x index) []leftOut {
	out := make([]leftOut, len(c.s.Pairs))
	for at := range c.s.Pairs {
		b := x.block(c.s, at)
		if len(b) == 2 && b[1] < b[0] {
			continue // done with its reverse
		}
		l := &leaving{c: c, k: k, y: y, b: b, share: make([]int, len(c.best))}
		for glaze := range c.best {
			l.choose(glaze)
		}
		errs := l.errors(r)
		for n, row := range b {
			q := c.s.Pairs[row]
			out[row].rule = c.at[row][l.share[q.Second]]
			out[row].residue = axesOf(q.Lab).less(errs[n]).lab()
		}
	}
	return out
}

// shift is how much the residue of a fired pair changes: new less old.
type shift struct {
	row int
	by  axes
}

// leaving is one block being left out.
type leaving struct {
	c     *cover
	k     *kin
	y     []axes
	b     []int
	share []int   // n: the steps chosen without the block
	moved []shift // residues that are others by that
}

// choose chooses a glaze's share without the block. The block's own glazes may
// change theirs, and any other that leans on the mean of all.
func (l *leaving) choose(glaze int) {
	w := l.c.choose(glaze, l.b)
	l.share[glaze] = w
	if w == l.c.best[glaze] {
		return
	}
	for _, row := range l.c.bySecond[glaze] {
		d := axesOf(l.c.at[row][l.c.best[glaze]]).less(axesOf(l.c.at[row][w]))
		l.moved = append(l.moved, shift{row, d})
	}
}

// errors is what came out less what would have been guessed, of each of the
// block's pairs.
func (l *leaving) errors(r residue) []axes {
	sum := r.sum
	for _, row := range l.b {
		sum = sum.less(l.y[row])
	}
	for _, d := range l.moved {
		if !slices.Contains(l.b, d.row) {
			sum = sum.plus(d.by)
		}
	}
	mean := drawn(sum, len(l.y)-len(l.b))
	pulls := make([]axes, len(l.b))
	for n, row := range l.b {
		pulls[n] = r.raw[row].less(mean.times(l.k.ones[row]))
		for _, d := range l.moved {
			pulls[n] = pulls[n].plus(d.by.times(l.k.inverse.At(row, d.row)))
		}
	}
	return l.k.unpull(l.b, pulls)
}
