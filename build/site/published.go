package site

import (
	"slices"

	"github.com/twodip/twodip/tiles"
)

// Public is what of a file that people write stands on the site as written.
type Public struct{ File, What string }

// Published lists all of it. Nothing else that a person typed comes onto the
// site that everybody reads: no maker, no piece, no note of the records, no
// file's name but a page's.
var Published = []Public{
	{"wall.yaml", "name, address, language, cone, and the reason of a rule"},
	{"content/glazes", "code, name, finish, cone, color, notes, cautions, traits, sg and shade"},
	{"content/buckets.csv", "the state of each bucket"},
	{"content/*.md", "every page, under its file's name"},
	{"tiles/plan.csv", "tile, first, second, status, repeats, load, shelf, batch and reason"},
	{"tiles/loads.csv", "load, date, kiln and schedule of a firing that held tiles"},
	{"tiles/batches.csv", "batch, where a tile is due again because of it"},
	{"tiles/measured.csv", "the colors, their doubt and their warning"},
	{"tiles/log.csv", "how often each of the trade’s fault words was seen with a pair; no count of fewer than three people’s pieces"},
	{"themes", "what you put there"},
}

// Shown says where a person's own words in the records stand on the site, a
// sentence a file, so that nobody writes a name there without knowing.
func Shown(w tiles.Wall, loads []tiles.Load) []string {
	var says []string
	if slices.ContainsFunc(w.Tiles, func(t tiles.Tile) bool { return t.Reason != "" || len(t.Batches) > 0 }) {
		says = append(says, "tiles/plan.csv: what stands below reason and batch is shown on the site as it is written")
	}
	if slices.ContainsFunc(loads, func(l tiles.Load) bool { return l.PlanLoad() > 0 && l.Kiln+l.Schedule != "" }) {
		says = append(says, "tiles/loads.csv: what stands below kiln and schedule is shown on the site as it is written")
	}
	return says
}
