package run

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/measure"
)

// advise says how the wall's mat can be read better: where colors stand on its
// paper as on any office paper, and a chart lay on it in this run, the paper's own
// color, each number the middle one over the photos.
func advise(w tiles.Wall, results map[string]measure.Result) []string {
	if len(w.Photo.Paper) > 0 {
		return nil
	}
	byPaper := slices.ContainsFunc(w.Readings, func(r tiles.Reading) bool { return strings.HasSuffix(r.Correction, "paper") })
	var seen []color.Lab
	for _, name := range slices.Sorted(maps.Keys(results)) {
		if p := results[name].Paper; p != nil {
			seen = append(seen, *p)
		}
	}
	if !byPaper || len(seen) == 0 {
		return nil
	}
	middle := func(of func(color.Lab) float64) float64 {
		var v []float64
		for _, p := range seen {
			v = append(v, of(p))
		}
		slices.Sort(v)
		return v[len(v)/2]
	}
	return []string{fmt.Sprintf("the chart in %s shows what color the mat's paper is: write paper: [%.1f, %.1f, %.1f] under photo: in wall.yaml, and what is read by the paper alone is nearer the truth, as long as you print on that paper",
		english.Count(len(seen), "photo", "photos"),
		middle(func(p color.Lab) float64 { return p.L }), middle(func(p color.Lab) float64 { return p.A }), middle(func(p color.Lab) float64 { return p.B }))}
}
