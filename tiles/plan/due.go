package plan

import (
	"slices"
	"strings"

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
	d := newDueing(s.Retest, have, firings)
	if s.Retest == tiles.RetestNone {
		return d.tiles
	}
	for _, b := range newest(batches) {
		for _, t := range have {
			if d.isDue(t, b) {
				d.again(t, b)
			}
		}
	}
	return d.tiles
}

// NoLonger ends the reason of a re-test that Changed asked for.
const NoLonger = "no longer matches"

// Changed adds the re-tests of every fired tile with a glaze whose batch has
// been found to make another color: then its single alone no longer stands for
// the others. Where the settings want no re-tests there are none.
func Changed(s tiles.Settings, have []tiles.Tile, off []tiles.Batch, firings []tiles.Load) []tiles.Tile {
	if s.Retest == tiles.RetestNone {
		return have
	}
	d := newDueing(tiles.RetestAll, have, firings)
	d.why = func(b tiles.Batch) string { return "batch " + batchLabel(b) + " " + NoLonger }
	for _, b := range off {
		for _, t := range have {
			if b.Name != "" && d.isDue(t, b) {
				d.again(t, b)
			}
		}
	}
	return d.tiles
}

func newDueing(retest tiles.Retest, have []tiles.Tile, firings []tiles.Load) *dueing {
	d := &dueing{retest: retest, tiles: slices.Clone(have), fired: map[int]string{}, why: newBatch}
	for _, f := range firings {
		if n := f.PlanLoad(); n > 0 {
			d.fired[n] = f.Date
		}
	}
	return d
}

type dueing struct {
	retest tiles.Retest
	tiles  []tiles.Tile
	fired  map[int]string // load → day of its firing
	why    func(tiles.Batch) string
}

// newest is the last batch of every glaze that has more than one, in the order
// the glazes come in the list of batches. A batch that is written again is a
// later check of its specific gravity, not one more.
func newest(batches []tiles.Batch) []tiles.Batch {
	var order []string
	last := map[string]tiles.Batch{}
	count := map[string]int{}
	seen := map[[2]string]bool{}
	for _, b := range batches {
		key := tiles.CodeKey(b.Glaze)
		named := [2]string{key, strings.ToLower(b.Name)}
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
func (d *dueing) isDue(t tiles.Tile, b tiles.Batch) bool {
	if !t.Own() || t.Status != tiles.Fired || !t.Has(b.Glaze) {
		return false
	}
	if d.retest != tiles.RetestAll && !t.Single() && !t.Double() {
		return false
	}
	if day := d.fired[t.Load]; day != "" && b.MixedOn != "" && day >= b.MixedOn {
		return false
	}
	return !slices.ContainsFunc(d.tiles, func(r tiles.Tile) bool { return r.Repeats == t.Number && madeFor(r, b) })
}

// again numbers a re-test of the tile, or lets one that waits serve the batch.
func (d *dueing) again(t tiles.Tile, b tiles.Batch) {
	next := tiles.Number(0)
	for i := range d.tiles {
		r := &d.tiles[i]
		next = max(next, r.Number)
		if r.Repeats == t.Number && r.Status == tiles.Planned && r.Batch != "" {
			r.Batch += batchJoin + batchLabel(b)
			r.Reason += ", " + d.why(b)
			return
		}
	}
	d.tiles = append(d.tiles, tiles.Tile{Number: next + 1, Pair: t.Pair, Status: tiles.Planned, Repeats: t.Number,
		Batch: batchLabel(b), Reason: "due again: " + d.why(b)})
}

// batchJoin stands between the batches that one re-test serves.
const batchJoin = " + "

// batchLabel names a batch with its glaze, because every bucket may have a
// batch 2; a name that begins with the code says it already.
func batchLabel(b tiles.Batch) string {
	if len(b.Name) > len(b.Glaze) && strings.EqualFold(b.Name[:len(b.Glaze)], b.Glaze) {
		return b.Name
	}
	return b.Glaze + " " + b.Name
}

func newBatch(b tiles.Batch) string { return "batch " + batchLabel(b) + " is new" }

func madeFor(r tiles.Tile, b tiles.Batch) bool {
	return slices.ContainsFunc(strings.Split(r.Batch, batchJoin), func(label string) bool { return strings.EqualFold(label, batchLabel(b)) })
}
