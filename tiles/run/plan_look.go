package run

import (
	"encoding/json"
	"reflect"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/record"
)

// Differs says that the plan would change tiles/plan.csv.
func (p Planned) Differs(dir folder.Folder) bool {
	was, err := record.ReadTiles(dir)
	return err != nil || !slices.EqualFunc(was, p.Tiles, func(a, b tiles.Tile) bool { return reflect.DeepEqual(a, b) })
}

// Seen tells this plan from every other: a person who has looked at one is not
// to be given another.
func (p Planned) Seen() string {
	text, err := json.Marshal(struct {
		Tiles   []tiles.Tile
		Changed any
	}{p.Tiles, p.Changed})
	if err != nil {
		return "none"
	}
	return Sum(text)
}

// Headline is what the plan would do now, numbers alone: "4 new, 29 retired, 1
// load, 22 min of dipping, 0.8 kg of clay". The cost is the plan's own, which takes
// a while to work out on a large wall: one answer asks for it once.
func (p Planned) Headline(cost Cost) string {
	var said []string
	add := func(n int, one, more string) {
		if n > 0 {
			said = append(said, english.Count(n, one, more))
		}
	}
	add(len(p.Added)+len(p.Due)+len(p.Moved)+len(p.Controls), "new tile", "new tiles")
	byStatus := map[tiles.Status]int{}
	for _, c := range p.Changed {
		byStatus[c.Tile.Status]++
	}
	add(byStatus[tiles.Retired], "tile retired", "tiles retired")
	add(byStatus[tiles.Skipped], "tile skipped", "tiles skipped")
	add(byStatus[tiles.Planned]+byStatus[tiles.Fired], "tile back in use", "tiles back in use")
	return strings.Join(append(said, cost.Words()...), ", ")
}

// Cost is what the tiles that are still to be made ask of a studio.
type Cost struct {
	Tiles   int     // to make, without spares
	Loads   int     // of the kiln, to fire
	Share   float64 // of one load, where they fill less than one
	Minutes float64 // of dipping
	Clay    float64 // kg of wet clay
	Hours   float64 // of people's work, from clay to wall,
	Days    int     // over so many days
	Units   tiles.Units
}

// Cost sums up what is still to be made.
func (p Planned) Cost() Cost {
	runs, _ := p.effort()
	c := Cost{Tiles: p.Materials.Tiles, Loads: toFire(p.Loads), Minutes: runs.Minutes, Clay: p.Materials.Clay, Units: p.Wall.Units}
	c.Hours, c.Days = plan.Whole(plan.Stages(p.Wall))
	if holds := plan.Holds(p.Wall.Settings); c.Loads == 1 && holds > 0 {
		c.Share = float64(c.Tiles) / float64(holds)
	}
	return c
}

// Words says a cost, numbers first: "half a load", "22 min of dipping".
func (c Cost) Words() []string {
	if c.Tiles == 0 {
		return nil
	}
	return []string{c.loads(), english.Hours(c.Minutes) + " of dipping", c.Units.Weight(c.Clay) + " of clay"}
}

// loads says a small load as a share of one.
func (c Cost) loads() string {
	switch {
	case c.Loads != 1 || c.Share == 0 || c.Share > 0.85:
		return english.Count(c.Loads, "load", "loads")
	case c.Share > 0.6:
		return "three quarters of a load"
	case c.Share > 0.35:
		return "half a load"
	}
	return "a quarter of a load or less"
}
