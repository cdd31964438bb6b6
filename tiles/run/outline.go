package run

import (
	"encoding/json"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// What plan says to programs, and to any front that shows it. Lengths are mm, volumes litres, masses kg, times
// minutes.
type (
	planOutline struct {
		Tiles     []tileOutline    `json:"tiles"`
		New       []int            `json:"new"`
		Due       []int            `json:"due"`
		Controls  []int            `json:"controls"`
		Waiting   []int            `json:"waiting"`
		Changed   []changeOutline  `json:"changed"`
		LeftOut   []verdictOutline `json:"leftOut"`
		WithCare  []verdictOutline `json:"withCare"`
		Later     int              `json:"later"`
		Without   []int            `json:"withoutPlace"`
		Loads     []loadOutline    `json:"loads"`
		Materials needsOutline     `json:"materials"`
		Notes     []string         `json:"notes"`
	}
	tileOutline struct {
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
	changeOutline struct {
		Tile   int    `json:"tile"`
		From   string `json:"from"`
		To     string `json:"to"`
		Reason string `json:"reason"`
	}
	verdictOutline struct {
		First  string `json:"first"`
		Second string `json:"second"`
		Reason string `json:"reason"`
	}
	loadOutline struct {
		Load     int     `json:"load"`
		Fired    bool    `json:"fired"`
		Tiles    []int   `json:"tiles"`
		Dips     int     `json:"dips"`
		Openings int     `json:"openings"`
		Minutes  float64 `json:"minutes"`
	}
	needsOutline struct {
		Tiles   int              `json:"tiles"`
		Spares  int              `json:"spares"`
		Clay    float64          `json:"wetClayKg"`
		Cups    int              `json:"cups"`
		Thrown  float64          `json:"thrownAwayLitres"`
		Buckets []bucketOutline  `json:"buckets"`
		Assumed []assumedOutline `json:"assumed"`
	}
	bucketOutline struct {
		Glaze  string  `json:"glaze"`
		Dips   int     `json:"dips"`
		Used   float64 `json:"usedLitres"`
		Fill   float64 `json:"standingLitres"`
		Litres float64 `json:"litres"`
		Dry    float64 `json:"dryKg"`
		Water  float64 `json:"waterLitres"`
	}
	assumedOutline struct {
		What    string `json:"what"`
		Value   string `json:"value"`
		Setting string `json:"setting"`
	}
	whyOutline struct {
		Tile   int           `json:"tile"`
		First  string        `json:"first"`
		Second string        `json:"second"`
		Why    []lineOutline `json:"why"`
	}
	lineOutline struct {
		About string `json:"about"`
		Says  string `json:"says"`
	}
)

func outlineOf(w tiles.Wall, p plan.Plan) planOutline {
	j := planOutline{Later: p.Later, Notes: append([]string{}, p.Notes...), Materials: needsOf(p.Materials)}
	j.Tiles = each(p.Tiles, func(t tiles.Tile) tileOutline {
		return tileOutline{int(t.Number), t.First, t.Second, string(t.Status), int(t.Repeats), t.Load, t.Shelf, t.X, t.Y, each(t.Batches, tiles.BatchName.String), t.SayReason()}
	})
	number := func(n tiles.Number) int { return int(n) }
	j.New, j.Due, j.Controls = each(p.Added, number), each(slices.Concat(p.Due, p.Moved), number), each(p.Controls, number)
	j.Without, j.Waiting = each(p.Without, number), each(p.Waiting, number)
	j.Changed = each(p.Changed, func(c plan.Change) changeOutline {
		return changeOutline{int(c.Tile.Number), string(c.From), string(c.Tile.Status), c.Tile.Reason}
	})
	verdict := func(v plan.Verdict) verdictOutline { return verdictOutline{v.First, v.Second, v.Reason()} }
	j.LeftOut, j.WithCare = each(p.Skipped, verdict), each(p.Cautions, verdict)
	j.Loads = each(p.Loads, func(l plan.Load) loadOutline { return loadOf(w, l) })
	return j
}

func loadOf(w tiles.Wall, l plan.Load) loadOutline {
	effort := plan.DipRuns(w, l).Total
	return loadOutline{l.Number, l.Fired, each(l.Tiles(), func(t tiles.Tile) int { return int(t.Number) }), effort.Dips, effort.Openings, effort.Minutes}
}

func needsOf(m plan.Materials) needsOutline {
	return needsOutline{m.Tiles, m.Spares, m.Clay, m.Cups, m.Thrown,
		each(m.Buckets, func(b plan.Bucket) bucketOutline {
			return bucketOutline{b.Glaze.Code, b.Dips, b.Used, b.Fill, b.Litres, b.Dry, b.Water}
		}),
		each(m.Assumed, func(a plan.Assumption) assumedOutline { return assumedOutline(a) })}
}

func reasonsOf(e Explained) whyOutline {
	return whyOutline{int(e.Tile.Number), e.Pair.First, e.Pair.Second, each(e.Why, func(l plan.Line) lineOutline { return lineOutline(l) })}
}

// Needs is the glaze and the clay to have ready.
type Needs struct{ plan.Materials }

// MarshalJSON says it for programs.
func (n Needs) MarshalJSON() ([]byte, error) { return json.Marshal(needsOf(n.Materials)) }

// each turns every item into another; the result is a list even when empty.
func each[A, B any](all []A, turn func(A) B) []B {
	out := make([]B, len(all))
	for i, one := range all {
		out[i] = turn(one)
	}
	return out
}
