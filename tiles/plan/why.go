package plan

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// Line is one choice of the plan and its ground.
type Line struct {
	About string // number, rule, load, place, first coat, …
	Says  string
}

// Why explains a pair: what the rules and the settings make of it and, where
// it has a tile, that tile's number, load, place and dips. The wall's rows are
// those that Make returned.
func Why(w tiles.Wall, pair tiles.Pair) []Line {
	t, ok := w.Own(pair)
	if !ok {
		return append(whyRule(w, pair), Line{"number", whyNoTile(w, pair)})
	}
	return WhyTile(w, t)
}

// WhyTile explains one tile.
func WhyTile(w tiles.Wall, t tiles.Tile) []Line {
	lines := append([]Line{{"number", whyNumber(t)}}, whyRule(w, t.Pair)...)
	if !inUse(t) {
		return append(lines, Line{string(t.Status), whyOut(t)})
	}
	loads := Loads(w)
	i := slices.IndexFunc(loads, func(l Load) bool { return l.Number == t.Load })
	if i < 0 {
		if t.Status == tiles.Planned {
			lines = append(lines, Line{"load", "it has no place: no shelf has room for it"})
		}
		return lines
	}
	lines = append(lines, whyLoad(w, t, len(loads))...)
	return append(lines, whyDips(w, DipRuns(w, sessionWith(w, loads[i])...), t)...)
}

// whyNoTile says why a pair that the rules allow has no number.
func whyNoTile(w tiles.Wall, p tiles.Pair) string {
	e := &extension{s: w.Settings, glazes: w.Glazes, judge: newJudge(w.Settings, w.Glazes)}
	switch status, reason := e.stand(tiles.Tile{Pair: p}); {
	case status != "":
		return "none: " + reason
	case w.Part.Pairs > 0 || w.Part.Glazes > 0:
		return fmt.Sprintf("none yet: part: asks for %s now, and this pair is not among them", w.Part)
	}
	return "none yet: the next plan gives it one"
}

func whyNumber(t tiles.Tile) string {
	says := "given for good"
	if t.Round > 0 {
		says += fmt.Sprintf(" in round %d of the plan", t.Round)
	}
	if !t.Own() {
		says += fmt.Sprintf("; repeats tile %d", t.Repeats)
	}
	if t.Reason != "" && inUse(t) {
		says += "; " + t.SayReason()
	}
	return says
}

func whyOut(t tiles.Tile) string {
	reason := t.Reason
	if reason == "" {
		reason = "no reason is written"
	}
	if t.Was == "" {
		return reason + "; set by hand in tiles/plan.csv, so the plan leaves it"
	}
	return fmt.Sprintf("%s; it was %s before and will be again when that changes", reason, t.Was)
}

// whyRule says what the rules make of the pair, with the line of each.
func whyRule(w tiles.Wall, p tiles.Pair) []Line {
	if p.Single() {
		return []Line{{"rule", "rules are about two coats: a single is always made"}}
	}
	v := Judge(w.Settings, w.Glazes, p)
	if len(v.Grounds) == 0 {
		return []Line{{"rule", "none speaks of this pair: every ordered pair is made"}}
	}
	var lines []Line
	for _, g := range v.Grounds {
		where := "every wall starts with this rule; do: allow in wall.yaml sets it aside"
		if g.Line > 0 {
			where = fmt.Sprintf("wall.yaml:%d", g.Line)
		}
		lines = append(lines, Line{v.Do, fmt.Sprintf("%s (%s)", g.Reason, where)})
	}
	return lines
}

func whyLoad(w tiles.Wall, t tiles.Tile, loads int) []Line {
	lines := []Line{
		{"load", fmt.Sprintf("%d of %d: %s", t.Load, loads, whyBlock(w, t))},
		{"shelf", t.Shelf + ": " + whyShelf(w, t)},
		{"place", fmt.Sprintf("%g mm from the left, %g mm from the front; drawn by lot with seed %d, so that no glaze has the best places", t.X, t.Y, w.Kiln.Seed)},
	}
	return lines
}

// whyBlock says how even the tile's glazes are over the loads.
func whyBlock(w tiles.Wall, t tiles.Tile) string {
	if !t.Own() {
		return "beside what else is fired then; a repeat is not counted when loads are made even"
	}
	says := evenly(w, t, t.First, "first", func(o tiles.Tile) string { return o.First })
	if !t.Single() {
		says += "; " + evenly(w, t, t.Second, "second", func(o tiles.Tile) string { return o.Second })
	}
	return says
}

func evenly(w tiles.Wall, t tiles.Tile, code, as string, glazeOf func(tiles.Tile) string) string {
	count := map[int]int{}
	for _, o := range w.Tiles {
		if o.Load > 0 && o.Own() && inUse(o) && tiles.SameCode(glazeOf(o), code) {
			count[o.Load]++
		}
	}
	times := "times"
	if count[t.Load] == 1 {
		times = "time"
	}
	says := fmt.Sprintf("%s is %s %d %s in it", code, as, count[t.Load], times)
	var others []string
	for _, l := range slices.Sorted(maps.Keys(count)) {
		if l != t.Load {
			others = append(others, fmt.Sprint(count[l]))
		}
	}
	if len(others) > 0 && len(others) <= 6 {
		says += ", " + strings.Join(others, ", ") + " in the other loads"
	}
	return says
}

func whyShelf(w tiles.Wall, t tiles.Tile) string {
	var says []string
	if runs(w.Glazes, t.Pair) {
		says = append(says, fmt.Sprintf("a glaze that runs goes low, on a waste slab %g mm larger all round", w.Kiln.Tray))
	}
	if other, ok := w.Own(t.Reverse()); ok && t.Own() && other.Number != t.Number && other.Load == t.Load && other.Shelf == t.Shelf {
		says = append(says, fmt.Sprintf("with its other order, tile %d", other.Number))
	}
	if w.Kiln.IsControl(t) {
		says = append(says, "a control stands on every shelf of every load")
	}
	if len(says) == 0 {
		return "where its glazes were fewest"
	}
	return strings.Join(says, "; ")
}

// whyDips says when each coat is dipped, and how.
func whyDips(w tiles.Wall, d Dips, t tiles.Tile) []Line {
	var lines []Line
	for _, run := range []Run{d.First, d.Second} {
		for i, s := range run.Steps {
			if !slices.ContainsFunc(s.Tiles(), func(o tiles.Tile) bool { return o.Number == t.Number }) {
				continue
			}
			about := "1st coat"
			says := fmt.Sprintf("bucket %d of %d in the first run of load %d, light to dark, strong colorants last", i+1, len(run.Steps), d.Load)
			if run.Coat == 2 {
				about = "2nd coat"
				vessel := fromOf(w.Dip.SecondFrom)
				says = fmt.Sprintf("%s %d of %d in the second run, %g min after the last first coat", vessel, i+1, len(run.Steps), run.Wait)
			}
			way := CoatWay(w.Settings, w.Settings.Tile.Coats(t.Pair)[run.Coat-1])
			lines = append(lines, Line{about, says + "; " + way})
		}
	}
	return lines
}
