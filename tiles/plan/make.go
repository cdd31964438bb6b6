package plan

import (
	"fmt"
	"math"
	"slices"

	"github.com/twodip/twodip/tiles"
)

// Wish is what the plan is made from.
type Wish struct {
	tiles.Wall
	Batches []tiles.Batch // tiles/batches.csv, in its order
	Firings []tiles.Load  // tiles/loads.csv
	Moved   []tiles.Batch // those found to make another color than the wall shows
	Anew    bool          // place every tile that is not fired again
	Also    []tiles.Pair  // pairs to number beyond the part; the rules hold for them too
}

// Plan is the whole plan: numbers, loads, dip runs and materials.
type Plan struct {
	Result
	Due       []tiles.Number // re-tests of new batches numbered now
	Moved     []tiles.Number // those of batches that make another color than the wall shows
	Controls  []tiles.Number // controls numbered now
	Without   []tiles.Number // planned tiles that fit on no shelf
	Fewer     bool           // placed afresh, what is not fired would take fewer loads
	Waiting   []tiles.Number // planned tiles of loads that have been fired: they wait for a photo
	Loads     []Load         // all of them, the fired ones too
	Dips      []Dips         // of the loads that are not fired, by session
	Materials Materials      // for the tiles that are not fired
}

// Make plans the wall: first every pair its number, then re-tests for new
// batches, then loads with their controls, dip runs and materials. Numbers
// given now share one round.
func Make(w Wish) (Plan, error) {
	numbered, err := extend(w.Settings, w.Glazes, w.Tiles, w.Also)
	if err != nil {
		return Plan{}, err
	}
	p := Plan{Result: numbered}
	fresh := Due(w.Settings, p.Tiles, w.Batches, w.Firings)
	due := Changed(w.Settings, fresh, w.Moved, w.Firings)
	p.Due, p.Moved = numbersFrom(fresh, len(p.Tiles)), numbersFrom(due, len(fresh))
	places := Place(w.Settings, w.Glazes, due, w.Anew)
	p.Controls = numbersFrom(places.Tiles, len(due))
	p.Tiles, p.Without = places.Tiles, places.Without
	if err := enoughNumbers(p.Tiles); err != nil {
		return Plan{}, err
	}
	p.Notes = append(p.Notes, places.Notes...)
	if now, fewest := w.toFire(p.Tiles), w.fewest(due); fewest < now {
		p.Fewer = true
		p.Notes = append(p.Notes, fmt.Sprintf("%d loads would be %d with every tile that is not fired placed afresh; that moves tiles that have a place, so print the sheets again", now, fewest))
	}
	p.setRound(w.Tiles)
	p.Changed = changes(w.Tiles, p.Tiles)
	wall := w.Wall
	wall.Tiles = p.Tiles
	p.Loads = Loads(wall)
	for _, s := range Sessions(wall) {
		p.Dips = append(p.Dips, DipRuns(wall, s...))
	}
	p.Materials = Need(wall)
	p.Waiting = waiting(p.Tiles)
	return p, nil
}

func waiting(ts []tiles.Tile) []tiles.Number {
	fired := inKiln(ts)
	var ns []tiles.Number
	for _, t := range ts {
		if t.Status == tiles.Planned && fired[t.Load] {
			ns = append(ns, t.Number)
		}
	}
	return ns
}

// toFire is how many loads have not been in the kiln.
func (w Wish) toFire(ts []tiles.Tile) int {
	n := 0
	for _, l := range Loads(tiles.Wall{Settings: w.Settings, Glazes: w.Glazes, Tiles: ts}) {
		if !l.Fired {
			n++
		}
	}
	return n
}

// fewest is how many loads there would be if all were planned again; loads
// that were planned bit by bit may be more.
func (w Wish) fewest(ts []tiles.Tile) int {
	placed := slices.ContainsFunc(ts, func(t tiles.Tile) bool { return t.Status == tiles.Planned && t.Load > 0 })
	if w.Anew || !placed {
		return math.MaxInt
	}
	return w.toFire(Place(w.Settings, w.Glazes, ts, true).Tiles)
}

// numbersFrom is the numbers of the rows from the place on.
func numbersFrom(ts []tiles.Tile, from int) []tiles.Number {
	var ns []tiles.Number
	for _, t := range ts[from:] {
		ns = append(ns, t.Number)
	}
	return ns
}

// setRound gives all rows that are new the same round.
func (p *Plan) setRound(before []tiles.Tile) {
	round := 0
	old := make(map[tiles.Number]bool, len(before))
	for _, t := range before {
		round = max(round, t.Round)
		old[t.Number] = true
	}
	for i := range p.Tiles {
		if !old[p.Tiles[i].Number] {
			p.Tiles[i].Round = round + 1
		}
	}
}

// changes are the rows whose status is another than before.
func changes(before, after []tiles.Tile) []Change {
	was := make(map[tiles.Number]tiles.Status, len(before))
	for _, t := range before {
		was[t.Number] = t.Status
	}
	var cs []Change
	for _, t := range after {
		if from, ok := was[t.Number]; ok && from != t.Status {
			cs = append(cs, Change{Tile: t, From: from})
		}
	}
	return cs
}

// New is the tiles that the latest round of the plan asked to make and that
// are not fired: what print --new prints. Rows from a plan that knew no rounds
// count as the first.
func New(ts []tiles.Tile) []tiles.Tile {
	round := 0
	for _, t := range ts {
		round = max(round, t.Round)
	}
	var out []tiles.Tile
	for _, t := range ts {
		if t.Round == round && t.Status == tiles.Planned {
			out = append(out, t)
		}
	}
	return out
}

// give appends the tile under the number after the last.
func give(ts []tiles.Tile, t tiles.Tile) []tiles.Tile {
	last := tiles.Number(0)
	for _, have := range ts {
		last = max(last, have.Number)
	}
	t.Number = last + 1
	return append(ts, t)
}

// enoughNumbers refuses a plan with a number that the next run could not read.
func enoughNumbers(ts []tiles.Tile) error {
	if slices.ContainsFunc(ts, func(t tiles.Tile) bool { return t.Number > tiles.MaxNumber }) {
		return tiles.Problem{File: "tiles/plan.csv", What: fmt.Sprintf("no number is left below %d", tiles.MaxNumber+1),
			Do: "plan a part of the wall, or start a new wall"}
	}
	return nil
}
