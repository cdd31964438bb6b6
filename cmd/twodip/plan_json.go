package main

import (
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// What plan says to programs. Lengths are mm, volumes litres, masses kg, times
// minutes.
type (
	planJSON struct {
		Tiles     []tileJSON    `json:"tiles"`
		New       []int         `json:"new"`
		Due       []int         `json:"due"`
		Controls  []int         `json:"controls"`
		Waiting   []int         `json:"waiting"`
		Changed   []changeJSON  `json:"changed"`
		LeftOut   []verdictJSON `json:"leftOut"`
		WithCare  []verdictJSON `json:"withCare"`
		Later     int           `json:"later"`
		Without   []int         `json:"withoutPlace"`
		Loads     []loadJSON    `json:"loads"`
		Materials needsJSON     `json:"materials"`
		Notes     []string      `json:"notes"`
	}
	tileJSON struct {
		Tile    int      `json:"tile"`
		First   string   `json:"first"`
		Second  string   `json:"second"`
		Status  string   `json:"status"`
		Repeats int      `json:"repeats,omitempty"`
		Load    int      `json:"load,omitempty"`
		Shelf   string   `json:"shelf,omitempty"`
		X       float64  `json:"x,omitempty"`
		Y       float64  `json:"y,omitempty"`
		Batches []string `json:"batches,omitempty"`
		Reason  string   `json:"reason,omitempty"`
	}
	changeJSON struct {
		Tile   int    `json:"tile"`
		From   string `json:"from"`
		To     string `json:"to"`
		Reason string `json:"reason"`
	}
	verdictJSON struct {
		First  string `json:"first"`
		Second string `json:"second"`
		Reason string `json:"reason"`
	}
	loadJSON struct {
		Load     int     `json:"load"`
		Fired    bool    `json:"fired"`
		Tiles    []int   `json:"tiles"`
		Dips     int     `json:"dips"`
		Openings int     `json:"openings"`
		Minutes  float64 `json:"minutes"`
	}
	needsJSON struct {
		Tiles   int           `json:"tiles"`
		Spares  int           `json:"spares"`
		Clay    float64       `json:"wetClayKg"`
		Cups    int           `json:"cups"`
		Thrown  float64       `json:"thrownAwayLitres"`
		Buckets []bucketJSON  `json:"buckets"`
		Assumed []assumedJSON `json:"assumed"`
	}
	bucketJSON struct {
		Glaze  string  `json:"glaze"`
		Dips   int     `json:"dips"`
		Used   float64 `json:"usedLitres"`
		Fill   float64 `json:"standingLitres"`
		Litres float64 `json:"litres"`
		Dry    float64 `json:"dryKg"`
		Water  float64 `json:"waterLitres"`
	}
	assumedJSON struct {
		What    string `json:"what"`
		Value   string `json:"value"`
		Setting string `json:"setting"`
	}
	whyJSON struct {
		Tile   int        `json:"tile"`
		First  string     `json:"first"`
		Second string     `json:"second"`
		Why    []lineJSON `json:"why"`
	}
	lineJSON struct {
		About string `json:"about"`
		Says  string `json:"says"`
	}
)

func planOf(w tiles.Wall, p plan.Plan) planJSON {
	j := planJSON{Later: p.Later, Notes: append([]string{}, p.Notes...), Materials: needsOf(p.Materials)}
	j.Tiles = each(p.Tiles, func(t tiles.Tile) tileJSON {
		return tileJSON{int(t.Number), t.First, t.Second, string(t.Status), int(t.Repeats), t.Load, t.Shelf, t.X, t.Y, labels(t.Batches), t.SayReason()}
	})
	number := func(n tiles.Number) int { return int(n) }
	j.New, j.Due, j.Controls = each(p.Added, number), each(slices.Concat(p.Due, p.Moved), number), each(p.Controls, number)
	j.Without, j.Waiting = each(p.Without, number), each(p.Waiting, number)
	j.Changed = each(p.Changed, func(c plan.Change) changeJSON {
		return changeJSON{int(c.Tile.Number), string(c.From), string(c.Tile.Status), c.Tile.Reason}
	})
	verdict := func(v plan.Verdict) verdictJSON { return verdictJSON{v.First, v.Second, v.Reason()} }
	j.LeftOut, j.WithCare = each(p.Skipped, verdict), each(p.Cautions, verdict)
	j.Loads = each(p.Loads, func(l plan.Load) loadJSON { return loadOf(w, l) })
	return j
}

func loadOf(w tiles.Wall, l plan.Load) loadJSON {
	effort := plan.DipRuns(w, l).Total
	return loadJSON{l.Number, l.Fired, each(l.Tiles(), func(t tiles.Tile) int { return int(t.Number) }), effort.Dips, effort.Openings, effort.Minutes}
}

func needsOf(m plan.Materials) needsJSON {
	return needsJSON{m.Tiles, m.Spares, m.Clay, m.Cups, m.Thrown,
		each(m.Buckets, func(b plan.Bucket) bucketJSON {
			return bucketJSON{b.Glaze.Code, b.Dips, b.Used, b.Fill, b.Litres, b.Dry, b.Water}
		}),
		each(m.Assumed, func(a plan.Assumption) assumedJSON { return assumedJSON(a) })}
}

func whyOf(p tiles.Pair, t tiles.Tile, lines []plan.Line) whyJSON {
	return whyJSON{int(t.Number), p.First, p.Second, each(lines, func(l plan.Line) lineJSON { return lineJSON(l) })}
}

// each turns every item into another; the result is a list even when empty.
func each[A, B any](all []A, turn func(A) B) []B {
	out := make([]B, len(all))
	for i, one := range all {
		out[i] = turn(one)
	}
	return out
}

func labels(batches []tiles.BatchName) []string { return each(batches, tiles.BatchName.String) }
