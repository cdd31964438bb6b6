package record

import (
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/table"
)

// The reason stands in its cell as people read it, "due again: " before that of
// a re-test; what it was before the plan skipped or retired the tile stands
// below before.
var (
	reasonColumn = column[tiles.Tile]{
		name: "reason",
		get:  func(_ *table.Table, t tiles.Tile) string { return t.SayReason() },
		set:  func(t *tiles.Tile, cell string) error { t.Reason = cell; return nil },
	}
	beforeColumn = column[tiles.Tile]{
		name: "before",
		get:  func(_ *table.Table, t tiles.Tile) string { return earlier(t).SayReason() },
		set:  func(t *tiles.Tile, cell string) error { t.Earlier = cell; return nil },
	}
)

// earlier is the tile as it was before the plan skipped or retired it.
func earlier(t tiles.Tile) tiles.Tile {
	t.Reason, t.Was = t.Earlier, ""
	return t
}

// oneCell stood between the two reasons before they had a cell each.
const oneCell = "; before that: "

// partReasons takes from the cells what they say beside the reason, those of
// older files too.
func partReasons(t *tiles.Tile) {
	if t.Was != "" && t.Earlier == "" {
		t.Reason, t.Earlier, _ = strings.Cut(t.Reason, oneCell)
	}
	if !t.Retest() {
		return
	}
	if t.Was == "" {
		t.Reason = strings.TrimPrefix(t.Reason, tiles.DueAgain)
	}
	t.Earlier = strings.TrimPrefix(t.Earlier, tiles.DueAgain)
}
