package run

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/record"
)

// Line is one line about the plan: how many of what, and which. More names the
// command that says more of it, "" = none.
type Line struct {
	Count      int
	What, Says string
	More       string
}

// Lines says the plan in lines, numbers first: what there is, what is new, what
// is left out, and what to make now.
func (p Planned) Lines() []Line {
	l := &lines{Planned: p}
	singles, doubles, pairs, repeats := kindsOf(p.Tiles)
	l.add(singles+doubles+pairs, "tile", "tiles", kindWords(p.Wall, singles, doubles, pairs))
	l.add(repeats, "repeat", "repeats", "of these tiles: controls and re-tests")
	l.sayNew()
	for _, status := range []tiles.Status{tiles.Skipped, tiles.Retired, tiles.Planned, tiles.Fired} {
		l.sayChanges(p.Changed, status)
	}
	l.sayGrounds("left out", p.Skipped)
	l.sayGrounds("with care", p.Cautions)
	l.add(p.Later, "later", "later", "part: asks for "+p.Wall.Part.String()+" now")
	l.add(toFire(p.Loads), "load", "loads", loadWords(p.Wall.Units, p.Loads))
	l.add(len(p.Waiting), "waiting", "waiting", "fired, without a photo: "+numbered(p.Waiting)+"; set one that broke to retired in "+record.PlanFile)
	l.sayWork()
	l.add(p.Materials.Tiles+p.Materials.Spares, "to make", "to make", makeWords(p.Wall.Units, p.Materials), "plan --needs")
	return l.said
}

// lines are the lines of a plan.
type lines struct {
	Planned
	said []Line
}

// add says one count, unless it is none.
func (l *lines) add(n int, one, more, says string, command ...string) {
	if n == 1 {
		more = one
	}
	if n > 0 {
		l.said = append(l.said, Line{n, more, says, strings.Join(command, "")})
	}
}

// Remarks are what a person should know beside the plan, one sentence each.
func (p Planned) Remarks() []string {
	return slices.Concat(p.Notes, cupNote(p), content.Unwise(p.Wall.Settings), smallFirst(p))
}

// Summary is the plan in one phrase.
func (p Planned) Summary() string {
	singles, doubles, pairs, _ := kindsOf(p.Tiles)
	return fmt.Sprintf("%s, %s, %s", english.Count(singles+doubles+pairs, "tile", "tiles"),
		english.Count(inList(p.Wall.Glazes), "glaze", "glazes"), english.Count(len(p.Loads), "load", "loads"))
}

// sayNew says which numbers were given now, and for what.
func (l *lines) sayNew() {
	p := l.Plan
	says := numbered(p.Added)
	for _, n := range p.Added {
		if t, _ := tiles.FindTile(p.Tiles, n); t.Reason != "" {
			says += "; " + n.String() + " " + t.SayReason()
		}
	}
	l.add(len(p.Added), "new", "new", says)
	l.add(len(p.Controls), "control", "controls", numbered(p.Controls)+", fired on every shelf of every load")
	l.add(len(p.Due), "due again", "due again", numbered(p.Due)+": new batch "+dueBatches(p, p.Due)+singlesOnly(l.Wall))
	l.add(len(p.Moved), "due again", "due again", numbered(p.Moved)+": no longer matched by batch "+dueBatches(p, p.Moved), "twodip drift")
}

func singlesOnly(w tiles.Wall) string {
	if w.Retest == tiles.RetestAll {
		return ""
	}
	return "; singles only (retest: in wall.yaml)"
}

// dueBatches names the batches that make tiles due again.
func dueBatches(p plan.Plan, due []tiles.Number) string {
	var batches []string
	for _, n := range due {
		t, _ := tiles.FindTile(p.Tiles, n)
		if says := t.SayBatches(); !slices.Contains(batches, says) {
			batches = append(batches, says)
		}
	}
	return english.And(english.First(4, batches))
}

// numbered says numbers as a person does: "tile 7", "tiles 1 to 12, 15".
func numbered(ns []tiles.Number) string {
	if len(ns) == 1 {
		return "tile " + ns[0].String()
	}
	return "tiles " + ranges(ns)
}

// sayGrounds says one line a reason: how many pairs, and one of them.
func (l *lines) sayGrounds(what string, vs []plan.Verdict) {
	pairs := map[string][]tiles.Pair{}
	var reasons []string
	for _, v := range vs {
		for _, g := range v.Grounds {
			if pairs[g.Reason] == nil {
				reasons = append(reasons, g.Reason)
			}
			pairs[g.Reason] = append(pairs[g.Reason], v.Pair)
		}
	}
	for _, r := range reasons {
		more := ""
		if n := len(pairs[r]) - 1; n > 0 {
			more = fmt.Sprintf(" and %d more", n)
		}
		l.add(len(pairs[r]), what, what, fmt.Sprintf("%s%s: %s", pairs[r][0], more, r))
	}
}

// kindsOf counts the tiles in use by kind.
func kindsOf(ts []tiles.Tile) (singles, doubles, pairs, repeats int) {
	for _, t := range ts {
		switch {
		case t.Status != tiles.Planned && t.Status != tiles.Fired:
		case !t.Own():
			repeats++
		case t.Single():
			singles++
		case t.Double():
			doubles++
		default:
			pairs++
		}
	}
	return
}

func kindWords(w tiles.Wall, singles, doubles, pairs int) string {
	var words []string
	if singles > 0 {
		words = append(words, english.Count(singles, "single", "singles"))
	}
	if doubles > 0 {
		words = append(words, english.Count(doubles, "double", "doubles"))
	}
	words = append(words, english.Count(pairs, "ordered pair", "ordered pairs"))
	return fmt.Sprintf("%s: %s", english.Count(inList(w.Glazes), "glaze", "glazes"), strings.Join(words, ", "))
}

func inList(gs []tiles.Glaze) int {
	n := 0
	for _, g := range gs {
		if !g.Retired {
			n++
		}
	}
	return n
}

// ranges says numbers briefly: "1 to 12, 15, 17 to 20".
func ranges(ns []tiles.Number) string {
	ns = slices.Sorted(slices.Values(ns))
	var out []string
	for i := 0; i < len(ns); {
		j := i
		for j+1 < len(ns) && ns[j+1] == ns[j]+1 {
			j++
		}
		switch {
		case j == i:
			out = append(out, ns[i].String())
		default:
			out = append(out, fmt.Sprintf("%d to %d", ns[i], ns[j]))
		}
		i = j + 1
	}
	return strings.Join(out, ", ")
}

// sayChanges says which rows came to the status, one line a reason.
func (l *lines) sayChanges(cs []plan.Change, status tiles.Status) {
	what := string(status)
	if status == tiles.Planned || status == tiles.Fired {
		what = "back"
	}
	numbers := map[string][]tiles.Number{}
	var reasons []string
	for _, c := range cs {
		if c.Tile.Status != status {
			continue
		}
		reason := c.Tile.SayReason()
		if what == "back" {
			reason = "in use again as " + string(status)
		}
		if numbers[reason] == nil {
			reasons = append(reasons, reason)
		}
		numbers[reason] = append(numbers[reason], c.Tile.Number)
	}
	for _, r := range reasons {
		l.add(len(numbers[r]), what, what, numbered(numbers[r])+": "+r)
	}
}

// toFire counts the loads that have not been in the kiln.
func toFire(ls []plan.Load) int {
	n := 0
	for _, l := range ls {
		if !l.Fired {
			n++
		}
	}
	return n
}

// loadWords says how full the loads to fire are.
func loadWords(u tiles.Units, ls []plan.Load) string {
	loads, least, most, shelves, posts := 0, math.MaxInt, 0, 0, 0.0
	for _, l := range ls {
		if l.Fired {
			continue
		}
		loads++
		n := len(l.Tiles())
		least, most = min(least, n), max(most, n)
		used := slices.DeleteFunc(slices.Clone(l.Shelves), func(s plan.Shelf) bool { return len(s.Places) == 0 })
		shelves, posts = max(shelves, len(used)), l.Shelves[0].Clear
	}
	size := english.Count(most, "tile", "tiles")
	if least < most {
		size = fmt.Sprintf("%d to %s", least, size)
	}
	if loads > 1 {
		size += " a load"
	}
	return fmt.Sprintf("%s on %s, with %s posts", size, english.Count(shelves, "shelf", "shelves"), u.Length(posts))
}

// sayWork says what dipping in runs costs, against dipping tile by tile.
func (l *lines) sayWork() {
	runs, single := l.effort()
	if runs.Dips > 0 {
		l.add(runs.Dips, "dip", "dips", fmt.Sprintf("%s: %s, %s; tile by tile: %d, %s", runWords(l.Plan),
			english.Count(runs.Openings, "bucket opening", "bucket openings"), english.Hours(runs.Minutes), single.Openings, english.Hours(single.Minutes))+"; marking, wiping feet and loading not counted")
	}
}

// effort is what dipping what is planned costs, in runs and tile by tile.
func (p Planned) effort() (runs, single plan.Effort) {
	for _, d := range p.Dips {
		runs.Minutes += d.Total.Minutes
		runs.Openings += d.Total.Openings
		runs.Dips += d.Total.Dips
		single.Minutes += d.Single.Minutes
		single.Openings += d.Single.Openings
	}
	return runs, single
}

// runWords says how the loads are dipped: each in its runs, or several in one go.
func runWords(p plan.Plan) string {
	most := 1
	for _, d := range p.Dips {
		most = max(most, d.Last-d.Load+1)
	}
	if most == 1 {
		return "in runs"
	}
	return fmt.Sprintf("in runs, up to %d loads in one go", most)
}
