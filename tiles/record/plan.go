package record

import (
	"fmt"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// PlanFile is every number ever given, one row a tile.
const PlanFile = "tiles/plan.csv"

// plan keeps rows that are not written again: a number is never lost.
var plan = schema[tiles.Tile]{
	file:   PlanFile,
	needed: []string{"tile", "first", "second", "status"},
	key:    func(t tiles.Tile) string { return t.Number.String() },
	keep:   true,
	whole:  partReasons,
	unique: "tile %s also stands in line %d: a number is given once",
	columns: []column[tiles.Tile]{
		number("tile", func(t *tiles.Tile) *tiles.Number { return &t.Number }),
		{name: "first", get: func(_ *table.Table, t tiles.Tile) string { return t.First }, set: setFirst},
		textColumn("second", func(t *tiles.Tile) *string { return &t.Second }),
		{name: "status", get: func(_ *table.Table, t tiles.Tile) string { return string(t.Status) }, set: setStatus},
		number("repeats", func(t *tiles.Tile) *tiles.Number { return &t.Repeats }),
		whole("load", func(t *tiles.Tile) *int { return &t.Load }),
		textColumn("shelf", func(t *tiles.Tile) *string { return &t.Shelf }),
		decimal("x", 1, func(t *tiles.Tile) *float64 { return &t.X }),
		decimal("y", 1, func(t *tiles.Tile) *float64 { return &t.Y }),
		batchColumn,
		yes("control", func(t *tiles.Tile) *bool { return &t.Control }),
		reasonColumn,
		{name: "was", get: func(_ *table.Table, t tiles.Tile) string { return string(t.Was) }, set: setWas},
		beforeColumn,
		whole("round", func(t *tiles.Tile) *int { return &t.Round }),
	},
}

func setFirst(t *tiles.Tile, cell string) error {
	if cell == "" {
		return fmt.Errorf("is empty: every tile carries a first glaze")
	}
	t.First = cell
	return nil
}

// setStatus reads a status, whatever its case; an empty cell is planned.
func setStatus(t *tiles.Tile, cell string) (err error) {
	t.Status = tiles.Planned
	if cell != "" {
		t.Status, err = parseStatus(cell)
	}
	return err
}

// setWas reads the status a tile had before the plan took it out of use.
func setWas(t *tiles.Tile, cell string) (err error) {
	if cell != "" {
		t.Was, err = parseStatus(cell)
	}
	return err
}

func parseStatus(cell string) (tiles.Status, error) {
	for _, s := range tiles.Statuses {
		if strings.EqualFold(cell, string(s)) {
			return s, nil
		}
	}
	return "", fmt.Errorf("%q is not one of planned, fired, retired, skipped", cell)
}

// ReadTiles reads tiles/plan.csv of the wall, in the order of the file; a wall
// without one has no tiles yet. Errors are tiles.Problems.
func ReadTiles(dir folder.Folder) ([]tiles.Tile, error) { return plan.read(dir) }

// WriteTiles writes tiles/plan.csv of the wall. Rows keep their place, their
// added columns and their typed form; new tiles follow; no row is taken away.
func WriteTiles(dir folder.Folder, ts []tiles.Tile) error { return plan.write(dir, ts) }
