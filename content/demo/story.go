package demo

import (
	"slices"
	"strconv"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// Control is the glaze fired again in every load: its bucket is mixed once a
// year.
const Control = "HS"

const retestLoad = 13 // of the plan: both re-tests were in it

// Year adds to the plan, whose tiles were fired in its first loads, what the
// studio fired since: a control in every later load of loads.csv, and the
// re-tests of two buckets that were mixed again.
func Year(plan []tiles.Tile) []tiles.Tile {
	y := year{tiles: slices.Clone(plan)}
	last := 0
	for _, t := range plan {
		last = max(last, t.Load)
	}
	for load := last + 1; load <= autumnWeeks+springWeeks; load++ {
		if load == retestLoad {
			y.again("TB", changedBatch, load, 100)
			y.again("PP", sameBatch, load, 200)
		}
		y.add(tiles.Tile{Pair: tiles.Pair{First: Control}, Load: load, Shelf: hotShelf, X: 165, Y: 165, Control: true, Reason: "control: fired in every load"})
	}
	return y.tiles
}

type year struct{ tiles []tiles.Tile }

func (y *year) again(code, batch string, load int, x float64) {
	y.add(tiles.Tile{Pair: tiles.Pair{First: code}, Load: load, Shelf: "middle", X: x, Y: 165,
		Batches: []tiles.BatchName{tiles.ReadBatchName(batch, code)}, Reason: "batch " + batch + " is new"})
}

// add numbers a repeat of the wall's own tile of its pair.
func (y *year) add(t tiles.Tile) {
	for _, have := range y.tiles {
		t.Number = max(t.Number, have.Number+1)
		t.Round = max(t.Round, have.Round)
		if have.Own() && have.Pair.Same(t.Pair) {
			t.Repeats = have.Number
		}
	}
	t.Status = tiles.Planned
	y.tiles = append(y.tiles, t)
}

// moved is how the color of a tile was moved by its firing and its batch, in
// CIELAB, beside what the same glaze was on the wall.
func moved(t tiles.Tile) color.Lab {
	m := firingOf(t.Load)
	if t.Load > 0 && "G"+strconv.Itoa(t.Load) == hotLoad && t.Shelf == hotShelf {
		m = lab(m.L-4.5, m.A+1.2, m.B+2.5)
	}
	if t.SayBatches() == changedBatch {
		m = lab(m.L+3.0, m.A+0.5, m.B+3.6)
	}
	return m
}

// firingOf is how one firing as a whole differs from another: a little.
func firingOf(load int) color.Lab {
	r := chance("firing", strconv.Itoa(load))
	return lab(r.NormFloat64()*0.5, r.NormFloat64()*0.25, r.NormFloat64()*0.35)
}
