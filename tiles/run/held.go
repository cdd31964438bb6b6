package run

import (
	"fmt"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/earlier"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/record"
)

// held holds the plan against what else knows its numbers: the readings, and
// the plan as a command last left it; and the list against the last one that was
// kept. A plan that was lost, cut short, replaced by an older one or mangled in a
// spreadsheet is a problem, and so are codes that changed places; nothing is
// numbered, measured or published by them. again says a pair in other codes.
func held(dir folder.Folder, w tiles.Wall, again func(tiles.Pair) tiles.Pair) error {
	versions, err := earlier.List(dir)
	if err != nil {
		return err
	}
	if ps := changedPlaces(dir, w.Glazes, versions); len(ps) > 0 {
		return ps
	}
	given := plan.GivenByReadings(w.Readings, record.MeasuredFile)
	plans := earlier.Of(versions, record.PlanFile)
	for _, v := range plans {
		if ts, err := tilesOf(dir, v); err == nil { // one that cannot be read says nothing
			given = append(given, plan.GivenByPlan(renamedTiles(w.Glazes, ts), v.Saved)...)
			break
		}
	}
	for i := range given {
		given[i].Pair = again(given[i].Pair)
	}
	ts := slices.Clone(w.Tiles)
	for i := range ts {
		ts[i].Pair = again(ts[i].Pair)
	}
	clash := plan.Held(ts, given)
	if clash.None() {
		return nil
	}
	return clash.Problems(record.PlanFile, bringsBack(dir, w, plans, given))
}

// changedPlaces finds codes that have changed places in the list since it was
// kept: the tiles of each would be shown under the other's name.
func changedPlaces(dir folder.Folder, now []tiles.Glaze, versions []earlier.Version) tiles.Problems {
	var ps tiles.Problems
	was := lastList(dir, versions)
	for _, g := range now {
		old, known := tiles.FindGlaze(was, g.Code)
		if !known || old.Name == g.Name || g.Was != "" {
			continue
		}
		for _, other := range was {
			if other.Name == g.Name && !tiles.SameCode(other.Code, g.Code) {
				ps = append(ps, tiles.Problem{File: listFile(dir), Line: g.Line,
					What: fmt.Sprintf("%s is the code of %s now and was that of %s, whose tiles carry it; %s had %s", g.Code, g.Name, old.Name, g.Name, other.Code),
					Do:   "give each its own code again; to change a code say: twodip rename OLD NEW",
					Page: "give each its own code again, one at a time; the page Glazes asks then whether it is the same glaze"})
			}
		}
	}
	return ps
}

func tilesOf(dir folder.Folder, v earlier.Version) ([]tiles.Tile, error) {
	data, err := v.Read(dir)
	if err != nil {
		return nil, err
	}
	return record.ParseTiles(data)
}

// bringsBack is how a plan is put back with which nothing disagrees.
func bringsBack(dir folder.Folder, w tiles.Wall, plans []earlier.Version, given []plan.Given) plan.Back {
	for _, v := range plans {
		ts, err := tilesOf(dir, v)
		if err == nil && plan.Held(renamedTiles(w.Glazes, ts), given).None() {
			return plan.Back{Command: fmt.Sprintf("«twodip restore %s %d», the version of %s,", record.PlanFile, v.Turn, v.Kept.Format("2 Jan 15:04")),
				Version: v.Kept.Format("2 Jan 2006, 15:04:05")}
		}
	}
	return plan.Back{}
}

// renamedTiles are the tiles with the codes that their glazes have now.
func renamedTiles(glazes []tiles.Glaze, ts []tiles.Tile) []tiles.Tile {
	for i := range ts {
		ts[i].Pair = tiles.Renamed(glazes, ts[i].Pair)
	}
	return ts
}
