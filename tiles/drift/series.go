package drift

import (
	"fmt"
	"maps"
	"slices"
	"sort"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/drift/control"
)

// axes are the three signed differences that are charted; ΔE00 is not, because
// it is never negative and lies askew.
var axes = []struct {
	name string
	of   func(Retest) float64
}{
	{"ΔL*", func(r Retest) float64 { return r.L }},
	{"Δa*", func(r Retest) float64 { return r.A }},
	{"Δb*", func(r Retest) float64 { return r.B }},
}

// fewestPoints is how many points make a chart: fewer are said in words.
const fewestPoints = 4

// colorSeries charts re-tests by the wall's tile they are held against.
func colorSeries(retests []Retest) []Series {
	by := map[int][]Retest{}
	for _, r := range retests {
		by[int(r.Own)] = append(by[int(r.Own)], r)
	}
	var out []Series
	for _, own := range slices.Sorted(maps.Keys(by)) {
		if len(by[own]) < fewestPoints {
			continue
		}
		for _, axis := range axes {
			var points []control.Point
			for _, r := range by[own] {
				points = append(points, control.Point{Label: r.when(), Number: int(r.Tile), Value: axis.of(r)})
			}
			out = append(out, Series{Title: fmt.Sprintf("%s of re-tests against tile %d", axis.name, own), Unit: axis.name,
				Tile: tiles.Number(own), Chart: control.Individuals(points)})
		}
	}
	return out
}

func (r Retest) when() string {
	switch {
	case r.Day != "":
		return r.Day
	case r.Load > 0:
		return fmt.Sprintf("load %d", r.Load)
	}
	return "tile " + r.Tile.String()
}

// controlSeries charts every control over the loads, as the difference of the
// load's mean from the wall's own tile.
func (list shots) controlSeries(w tiles.Wall) []Series {
	seen := map[tiles.Number]bool{}
	var out []Series
	for _, s := range list {
		own := s.tile.Repeats
		if !w.Kiln.IsControl(s.tile) || seen[own] {
			continue
		}
		seen[own] = true
		base, ok := list.of(own)
		by := list.controlReadings(w, own)
		if !ok || len(by) < fewestPoints {
			continue
		}
		out = append(out, controlCharts(w, base, by)...)
	}
	return out
}

func controlCharts(w tiles.Wall, base shot, by map[int][]shot) []Series {
	var retests []Retest
	for _, load := range slices.Sorted(maps.Keys(by)) {
		m := mean(by[load])
		retests = append(retests, Retest{Tile: by[load][0].tile.Number, Load: load,
			L: m.L - base.lab.L, A: m.A - base.lab.A, B: m.B - base.lab.B})
	}
	var out []Series
	for _, axis := range axes {
		var points []control.Point
		for _, r := range retests {
			points = append(points, control.Point{Label: fmt.Sprintf("load %d", r.Load), Number: int(r.Tile), Value: axis.of(r)})
		}
		out = append(out, Series{Title: fmt.Sprintf("%s of the control %s against tile %d", axis.name, w.Glaze(base.tile.First).Name, base.tile.Number),
			Unit: axis.name, Tile: base.tile.Number, Chart: control.Individuals(points)})
	}
	return out
}

// gravityAllowed is how far a bucket may be off its specific gravity before
// anybody minds: a millilitre at 100 ml is 0.015 (derived), and ± 0.02 is common
// practice.
const gravityAllowed = 0.02

// sgSeries charts the specific gravities written of a bucket: every mix and
// every later check. nil where they are too few.
func sgSeries(g tiles.Glaze, batches []tiles.Batch) *Series {
	var rows []tiles.Batch
	for _, b := range batches {
		if tiles.SameCode(b.Glaze, g.Code) && b.SG > 0 {
			rows = append(rows, b)
		}
	}
	if len(rows) < fewestPoints {
		return nil
	}
	sort.SliceStable(rows, func(i, j int) bool { return rows[i].MixedOn < rows[j].MixedOn })
	var points []control.Point
	for _, b := range rows {
		points = append(points, control.Point{Label: b.MixedOn + ", batch " + b.Name, Value: b.SG})
	}
	chart := control.Individuals(points)
	if g.SG > 0 {
		chart = control.OnTarget(points, g.SG, gravityAllowed)
	}
	return &Series{Title: "Specific gravity of " + g.Name, Unit: "SG", Target: g.SG, Chart: chart}
}
