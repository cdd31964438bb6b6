package bench

import (
	"fmt"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// firingsPart is the record of firings and a form for one.
type firingsPart struct {
	Typed   record.Cells
	Shelves []shelfCone // a cone each
	Loads   []loadChoice
	Fired   []firing // the newest first
}

// shelfCone is the cone that bent on a shelf.
type shelfCone struct{ Name, Field, Cone string }

// loadChoice is a load of the plan that may have been in the kiln.
type loadChoice struct {
	Number int
	Text   string
	Chosen bool
}

type firing struct {
	tiles.Load
	Cone string
}

// firingsPage shows the firings; typed is nil for an empty form.
func firingsPage(r run.Records, typed record.Cells, wrong []string) recordsPage {
	page := recordsFrame("firings")
	page.Problem, page.reads = wrong, []string{record.LoadsFile, record.PlanFile}
	if typed == nil {
		typed = record.Cells{"date": today(), "kiln": r.Wall.Kiln.Name}
	}
	part := &firingsPart{Typed: typed, Loads: loadChoices(r, typed["tiles"])}
	for i, s := range r.Wall.Kiln.Shelves {
		field := fmt.Sprintf("cone%d", i)
		part.Shelves = append(part.Shelves, shelfCone{s.Name, field, typed[field]})
	}
	for _, l := range r.Loads {
		part.Fired = append(part.Fired, firing{l, sayCones(l, r.Wall.Kiln.Shelves)})
	}
	slices.Reverse(part.Fired)
	page.Firings = part
	return page
}

// loadChoices are the loads of the plan that no firing of the record held.
func loadChoices(r run.Records, chosen string) []loadChoice {
	held := map[int]bool{}
	for _, l := range r.Loads {
		held[l.PlanLoad()] = true
	}
	var out []loadChoice
	for _, l := range plan.Loads(r.Wall) {
		count := 0
		for _, s := range l.Shelves {
			count += len(s.Places)
		}
		if !held[l.Number] {
			out = append(out, loadChoice{l.Number, fmt.Sprintf("load %d, %s", l.Number, english.Count(count, "tile", "tiles")), fmt.Sprint(l.Number) == chosen})
		}
	}
	return out
}

// sayCones says the cones of a firing, the shelves in the order of the kiln.
func sayCones(l tiles.Load, shelves []tiles.Shelf) string {
	var said []string
	known := map[string]bool{}
	for _, s := range shelves {
		if cone := l.Cones[s.Name]; cone != "" {
			said, known[s.Name] = append(said, s.Name+" "+cone), true
		}
	}
	var rest []string
	for shelf, cone := range l.Cones {
		if !known[shelf] {
			rest = append(rest, strings.TrimSpace(shelf+" "+cone))
		}
	}
	slices.Sort(rest)
	return strings.Join(append(said, rest...), "; ")
}

func (b *Bench) addFiring(a *asked) (string, error) {
	row := cellsTyped(a, record.LoadColumns)
	r, err := run.LoadRecords(a.dir)
	if err != nil {
		return "", err
	}
	cones := []string{}
	for i, s := range r.Wall.Kiln.Shelves {
		field := fmt.Sprintf("cone%d", i)
		if cone := strings.TrimSpace(a.FormValue(field)); cone != "" {
			cones = append(cones, strings.TrimSpace(s.Name+" "+cone))
			row[field] = cone
		}
	}
	if len(cones) > 0 {
		row["cones"] = strings.Join(cones, "; ")
	}
	if err := run.AddLoad(a.dir, row); err != nil {
		return "", retry(a.dir, err, func(r run.Records, wrong []string) recordsPage { return firingsPage(r, row, wrong) })
	}
	said := note{Said: []string{"Firing " + row["load"] + " is written into " + record.LoadsFile + "."}}
	if row["tiles"] != "" {
		said.Next = &link{Href: "/records?part=unload&load=" + row["tiles"], Text: "Say how its tiles came out"}
	}
	return b.notes.leave("/records?part=firings", said), nil
}
