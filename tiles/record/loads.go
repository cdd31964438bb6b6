package record

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// LoadsFile is the record of firings, one row a load.
const LoadsFile = "tiles/loads.csv"

// LoadColumns is the headings of a new record of firings, in order. cones says
// what bent where: "top 6; middle 6; bottom 5½"; tiles says which load of the
// plan was in the kiln, where the firing has another name.
var LoadColumns = []string{"load", "kiln", "date", "schedule", "cones", "tiles", "note"}

var usualLoadHeadings = map[string]string{
	"firing": "load", "fired": "date", "fired on": "date", "day": "date", "cone": "cones", "cones by shelf": "cones",
	"programme": "schedule", "program": "schedule", "notes": "note",
	"tiles of load": "tiles", "test tiles": "tiles", "tile load": "tiles",
}

// ReadLoads reads tiles/loads.csv of the wall, in the order of the file; a wall
// without one has none. Errors are tiles.Problems.
func ReadLoads(dir folder.Folder, dates tiles.DateOrder) ([]tiles.Load, error) {
	t, err := schema[struct{}]{file: LoadsFile}.open(dir)
	if err != nil || t == nil {
		return nil, err
	}
	return loadsOf(t, dates)
}

func loadsOf(t *table.Table, dates tiles.DateOrder) ([]tiles.Load, error) {
	var out []tiles.Load
	lines, held := map[string]int{}, map[int]string{}
	err := rowsOf(t, LoadColumns, usualLoadHeadings, []string{"load"}, func(r cellsOf) error {
		l := tiles.Load{Name: r.cell("load"), Kiln: r.cell("kiln"), Schedule: r.cell("schedule"), Note: r.cell("note"), Line: r.Line}
		if l.Name == "" {
			return errors.New("load is empty")
		}
		key := strings.ToLower(l.Name)
		if first := lines[key]; first > 0 {
			return fmt.Errorf("load %s also stands in line %d: a load is fired once", l.Name, first)
		}
		lines[key] = r.Line
		var err error
		if cell := r.cell("date"); cell != "" {
			if l.Date, err = parseDate(cell, dates); err != nil {
				return fmt.Errorf("date %w", err)
			}
		}
		l.Cones = parseCones(r.cell("cones"))
		if l.Tiles, err = parsePlanLoad(r.cell("tiles")); err != nil {
			return err
		}
		if n := l.PlanLoad(); n > 0 {
			if other := held[n]; other != "" {
				return fmt.Errorf("load %d of the plan was in firing %s and in firing %s: a tile is fired once", n, other, l.Name)
			}
			held[n] = l.Name
		}
		out = append(out, l)
		return nil
	})
	return out, err
}

// parseCones reads "top 6; middle 6; bottom 5½"; a cone alone is that of the
// whole load, under "". A cone is text.
func parseCones(cell string) map[string]string {
	parts := split(cell, ";,\n")
	if len(parts) == 0 {
		return nil
	}
	cones := map[string]string{}
	for _, part := range parts {
		part = strings.NewReplacer(":", " ", "=", " ").Replace(part)
		words := strings.Fields(part)
		if len(words) > 0 {
			cones[strings.Join(words[:len(words)-1], " ")] = words[len(words)-1]
		}
	}
	return cones
}

// parsePlanLoad reads which load of the plan was in a firing: "3" or "load 3".
func parsePlanLoad(cell string) (int, error) {
	if cell == "" {
		return 0, nil
	}
	n, err := strconv.Atoi(strings.TrimSpace(strings.TrimPrefix(strings.ToLower(cell), "load")))
	if err != nil || n < 1 || n > int(tiles.MaxNumber) {
		return 0, fmt.Errorf("tiles is %q; write the number that tiles/plan.csv has below load, like 3", cell)
	}
	return n, nil
}
