package run

import (
	"fmt"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// CameOut is how a test tile came out of the kiln.
type CameOut string

// How a tile may come out.
const (
	OutWell   CameOut = "well"   // it hangs
	OutRan    CameOut = "ran"    // it hangs, and says so
	OutBroken CameOut = "broken" // its number stays, and plan numbers another in its place
	OutNot    CameOut = "not"    // it was not in the kiln: it waits
)

// outReasons are the words of ours that may stand as a tile's reason.
var outReasons = map[CameOut]string{OutRan: "ran in the firing", OutBroken: "broke in the firing"}

// Unloaded counts what unload wrote.
type Unloaded struct {
	Well, Ran, Broken, Not int
	Changed                int // rows of the plan that are not as they were
}

// Unload says how tiles of the plan came out: their status, and the words of
// ours as their reason where nobody has written another. Everything else of
// every row stays. A tile that the plan took out of use is left as it is.
func Unload(dir folder.Folder, out map[tiles.Number]CameOut) (Unloaded, error) {
	var did Unloaded
	c, err := take(dir)
	if err != nil {
		return did, err
	}
	defer c.end()
	wall, err := Load(dir)
	if err != nil {
		return did, err
	}
	ts := slices.Clone(wall.Tiles)
	for n := range out {
		if _, ok := tiles.FindTile(ts, n); !ok {
			return did, tiles.Problem{File: record.PlanFile, What: fmt.Sprintf("there is no tile %d", n), Do: "look at the plan again"}
		}
	}
	for i, t := range ts {
		how, said := out[t.Number]
		if !said || t.Was != "" {
			continue
		}
		did.count(how)
		if ts[i] = cameOut(t, how); ts[i].Status != t.Status || ts[i].Reason != t.Reason {
			did.Changed++
		}
	}
	if did.Changed == 0 {
		return did, nil
	}
	if err := c.begin(); err != nil {
		return did, err
	}
	return did, record.WriteTiles(dir, ts)
}

func (did *Unloaded) count(how CameOut) {
	switch how {
	case OutWell:
		did.Well++
	case OutRan:
		did.Ran++
	case OutBroken:
		did.Broken++
	case OutNot:
		did.Not++
	}
}

// cameOut is the tile with how it came out.
func cameOut(t tiles.Tile, how CameOut) tiles.Tile {
	switch how {
	case OutWell, OutRan:
		t.Status = tiles.Fired
	case OutBroken:
		t.Status = tiles.Retired
	case OutNot:
		t.Status = tiles.Planned
	}
	if t.Reason == "" || t.Reason == outReasons[OutRan] || t.Reason == outReasons[OutBroken] {
		t.Reason = outReasons[how]
	}
	return t
}

// Came says how a tile of the plan came out, as far as the plan says it.
func Came(t tiles.Tile) CameOut {
	switch {
	case t.Status == tiles.Retired && t.Was == "":
		return OutBroken
	case t.Status == tiles.Fired && t.Reason == outReasons[OutRan]:
		return OutRan
	case t.Status == tiles.Fired:
		return OutWell
	}
	return OutNot
}
