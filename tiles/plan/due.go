package plan

import (
	"slices"

	"github.com/twodip/twodip/tiles"
)

// Due adds the re-tests that new batches ask for to the plan's rows.
//
// The first batch listed of a glaze is the one the wall's tiles were made
// from; when a later one is listed, the glaze's fired single (or double) is due
// again, or every fired tile it is on, or none, as the settings say. A tile
// whose load was fired on or after the day of mixing was made from the new batch
// already. A re-test that still waits serves a later batch too, and is numbered
// once.
func Due(s tiles.Settings, have []tiles.Tile, batches []tiles.Batch, firings []tiles.Load) []tiles.Tile {
	if s.Retest == tiles.RetestNone {
		return have
	}
	r := newRetests(s.Retest, have, firings)
	for _, b := range newest(batches) {
		for _, t := range have {
			if r.isDue(t, b) {
				r.again(t, b)
			}
		}
	}
	return r.tiles
}

// Changed adds the re-tests of every fired tile with a glaze whose batch has
// been found to make another color: then its single alone no longer stands for
// the others. Where the settings want no re-tests there are none.
func Changed(s tiles.Settings, have []tiles.Tile, moved []tiles.Batch, firings []tiles.Load) []tiles.Tile {
	if s.Retest == tiles.RetestNone {
		return have
	}
	r := newRetests(tiles.RetestAll, have, firings)
	r.why = "no longer matches"
	for _, b := range moved {
		for _, t := range have {
			if b.Name != "" && r.isDue(t, b) {
				r.again(t, b)
			}
		}
	}
	return r.tiles
}

// retests is the plan's rows while re-tests are added.
type retests struct {
	retest tiles.Retest
	tiles  []tiles.Tile
	fired  map[int]string // load → day of its firing
	why    string         // what is said of the batch
}

func newRetests(retest tiles.Retest, have []tiles.Tile, firings []tiles.Load) *retests {
	r := &retests{retest: retest, tiles: slices.Clone(have), fired: map[int]string{}, why: "is new"}
	for _, f := range firings {
		if n := f.PlanLoad(); n > 0 {
			r.fired[n] = f.Date
		}
	}
	return r
}

// newest is the last batch of every glaze that has more than one, in the order
// the glazes come in the list of batches. A batch that is written again is a
// later check of its specific gravity, not one more.
func newest(batches []tiles.Batch) []tiles.Batch {
	var order []string
	last := map[string]tiles.Batch{}
	count := map[string]int{}
	seen := map[string]bool{}
	for _, b := range batches {
		key := tiles.CodeKey(b.Glaze)
		named := tiles.Fold(b.Named().String())
		if seen[named] {
			continue
		}
		seen[named] = true
		if count[key]++; count[key] == 1 {
			order = append(order, key)
		}
		if b.MixedOn >= last[key].MixedOn || b.MixedOn == "" {
			last[key] = b
		}
	}
	var out []tiles.Batch
	for _, key := range order {
		if count[key] > 1 {
			out = append(out, last[key])
		}
	}
	return out
}

// isDue says that the tile is one the batch asks for again.
func (r *retests) isDue(t tiles.Tile, b tiles.Batch) bool {
	if !t.Own() || t.Status != tiles.Fired || !t.Has(b.Glaze) {
		return false
	}
	if r.retest != tiles.RetestAll && !t.Single() && !t.Double() {
		return false
	}
	if day := r.fired[t.Load]; day != "" && b.MixedOn != "" && day >= b.MixedOn {
		return false
	}
	return !slices.ContainsFunc(r.tiles, func(again tiles.Tile) bool { return again.Repeats == t.Number && again.For(b.Named()) })
}

// again numbers a re-test of the tile, or lets one that waits serve the batch.
func (r *retests) again(t tiles.Tile, b tiles.Batch) {
	why := "batch " + b.Named().String() + " " + r.why
	for i := range r.tiles {
		waits := &r.tiles[i]
		if waits.Repeats == t.Number && waits.Status == tiles.Planned && waits.Retest() {
			waits.Batches = append(slices.Clip(waits.Batches), b.Named())
			waits.Reason += ", " + why
			return
		}
	}
	r.tiles = give(r.tiles, tiles.Tile{Pair: t.Pair, Status: tiles.Planned, Repeats: t.Number, Batches: []tiles.BatchName{b.Named()}, Reason: why})
}
