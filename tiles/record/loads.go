package record

import (
	"errors"
	"fmt"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// LoadsFile is the record of firings, one row a load.
const LoadsFile = "tiles/loads.csv"

// LoadColumns is the headings of a new record of firings, in order. cones says
// what bent where: "top 6; middle 6; bottom 5½".
var LoadColumns = []string{"load", "kiln", "date", "schedule", "cones", "note"}

var usualLoadHeadings = map[string]string{
	"firing": "load", "fired": "date", "fired on": "date", "day": "date", "cone": "cones", "cones by shelf": "cones",
	"programme": "schedule", "program": "schedule", "notes": "note",
}

// ReadLoads reads tiles/loads.csv of the wall, in the order of the file; a wall
// without one has none. Errors are tiles.Problems.
func ReadLoads(dir string, dates tiles.DateOrder) ([]tiles.Load, error) {
	var out []tiles.Load
	lines := map[string]int{}
	err := eachRow(dir, LoadsFile, LoadColumns, usualLoadHeadings, []string{"load"}, func(r cellsOf) error {
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
