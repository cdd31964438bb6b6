package plan

import (
	"cmp"
	"slices"

	"github.com/twodip/twodip/tiles"
)

// Dips is the dipping of one session's loads: all first coats, then all second
// coats, so that each bucket is opened once a run.
type Dips struct {
	Load   int // the first load
	Last   int // the last load
	First  Run
	Second Run     // no steps where the load has only singles
	Dry    float64 // minutes a first coat dries before its second
	Total  Effort  // both runs, as planned here
	Single Effort  // the same dips made tile by tile, for comparison
}

// Run is one pass along the buckets.
type Run struct {
	Coat    int     // 1 or 2
	Steps   []Step  // in the order the buckets are opened: light to dark, strong colorants last
	Wait    float64 // minutes to wait before the run starts, so that first coats are dry
	Minutes float64 // of work, Wait not counted
}

// Step is one bucket opened once and what is dipped in it.
type Step struct {
	Glaze   tiles.Glaze
	Cup     bool           // not dipped in the bucket itself, but from what is decanted from it
	Parts   [][]tiles.Tile // the tiles in order of dipping, one part between two stirrings
	Minutes float64
	Notes   []string // what to mind at this bucket, one short sentence each
}

// Tiles is every tile of the step, in order of dipping.
func (s Step) Tiles() []tiles.Tile {
	var all []tiles.Tile
	for _, part := range s.Parts {
		all = append(all, part...)
	}
	return all
}

// Effort is what a way of working costs.
type Effort struct {
	Minutes  float64
	Openings int // times a bucket is opened, stirred and closed
	Dips     int
}

// stirAgain is the minutes a stirring within a step takes (common practice, no
// source).
const stirAgain = 1

// DipRuns plans the dipping of one load, or of several in one go: every first
// coat, then every second.
func DipRuns(w tiles.Wall, loads ...Load) Dips {
	var ts []tiles.Tile
	for _, l := range loads {
		ts = append(ts, l.Tiles()...)
	}
	s := Session(loads)
	r := &runner{w: w, load: s.First()}
	d := Dips{Load: s.First(), Last: s.Last(), Dry: w.Dip.Dry}
	d.First = r.run(1, ts, func(t tiles.Tile) string { return t.First })
	d.Second = r.run(2, ts, func(t tiles.Tile) string { return t.Second })
	if len(d.Second.Steps) > 0 {
		d.Second.Wait = w.Dip.Dry
	}
	for _, run := range []Run{d.First, d.Second} {
		d.Total.Minutes += run.Minutes
		d.Total.Openings += len(run.Steps)
		for _, s := range run.Steps {
			d.Total.Dips += len(s.Tiles())
		}
	}
	seconds := 0
	for _, s := range d.Second.Steps {
		seconds += len(s.Tiles())
	}
	d.Single = Effort{
		Minutes: float64(d.Total.Dips)*w.Dip.Opening + float64(d.Total.Dips-seconds)*r.perTile(1) +
			float64(seconds)*(r.perTile(2)+r.perStep(2)),
		Openings: d.Total.Dips,
		Dips:     d.Total.Dips,
	}
	return d
}

type runner struct {
	w    tiles.Wall
	load int
}

// perTile is the minutes of one tile's coat, handling included.
func (r *runner) perTile(coat int) float64 {
	if coat == 2 {
		_, tile := secondMinutes(r.w.Dip)
		return tile
	}
	return (r.w.Dip.Seconds + r.w.Dip.Handling) / 60
}

// perStep is the minutes a coat takes at a bucket beside opening it.
func (r *runner) perStep(coat int) float64 {
	if coat == 2 {
		step, _ := secondMinutes(r.w.Dip)
		return step
	}
	return 0
}

// run gathers the tiles by the glaze of the coat and puts the buckets in order.
func (r *runner) run(coat int, ts []tiles.Tile, glazeOf func(tiles.Tile) string) Run {
	byCode := map[string][]tiles.Tile{}
	var order []tiles.Glaze
	for _, t := range ts {
		code := glazeOf(t)
		if code == "" {
			continue
		}
		if byCode[tiles.CodeKey(code)] == nil {
			order = append(order, r.w.Glaze(code))
		}
		byCode[tiles.CodeKey(code)] = append(byCode[tiles.CodeKey(code)], t)
	}
	r.sort(order)
	run := Run{Coat: coat}
	for _, g := range order {
		s := r.step(coat, g, byCode[tiles.CodeKey(g.Code)])
		run.Steps = append(run.Steps, s)
		run.Minutes += s.Minutes
	}
	return run
}

// sort puts light glazes before dark ones and strong colorants last; equals
// stay in the order of the glaze list.
func (r *runner) sort(gs []tiles.Glaze) {
	place := make(map[string]int, len(r.w.Glazes))
	for i, g := range r.w.Glazes {
		place[tiles.CodeKey(g.Code)] = i
	}
	slices.SortStableFunc(gs, func(a, b tiles.Glaze) int {
		return cmp.Or(cmp.Compare(darkness(a), darkness(b)), cmp.Compare(place[tiles.CodeKey(a.Code)], place[tiles.CodeKey(b.Code)]))
	})
}

// darkness orders buckets: light, mid (or not said), dark, then the strong
// colorants in the same order, so that what is carried over shows least
// (common practice).
func darkness(g tiles.Glaze) int {
	d := 1
	switch g.Shade {
	case "light":
		d = 0
	case "dark":
		d = 2
	}
	if g.Has(tiles.Colorant) {
		d += 3
	}
	return d
}

// step is one bucket's work. The tiles are dipped in a shuffled order, because
// a bucket that settles or thickens along the way would otherwise look like an
// effect of the pair (common practice in the design of experiments).
func (r *runner) step(coat int, g tiles.Glaze, ts []tiles.Tile) Step {
	slices.SortFunc(ts, func(a, b tiles.Tile) int { return int(a.Number - b.Number) })
	shuffle(ts, r.w.Kiln.Seed, uint64(r.load)<<8|uint64(coat))
	s := Step{Glaze: g, Cup: coat == 2 && fromOf(r.w.Dip.SecondFrom) != tiles.SecondBucket, Notes: notesOf(coat, g, r.w.Settings)}
	s.Minutes = r.w.Dip.Opening + r.perStep(coat) + float64(len(ts))*r.perTile(coat)
	s.Parts = parts(ts, r.perStirring(coat))
	s.Minutes += stirAgain * float64(len(s.Parts)-1)
	return s
}

// perStirring is how many tiles are dipped before the bucket is stirred again.
func (r *runner) perStirring(coat int) int {
	if r.w.Dip.Stir <= 0 || r.perTile(coat) <= 0 {
		return int(tiles.MaxNumber)
	}
	return max(1, int(r.w.Dip.Stir/r.perTile(coat)))
}

// parts cuts the tiles into even parts of at most so many.
func parts(ts []tiles.Tile, most int) [][]tiles.Tile {
	n := (len(ts) + most - 1) / most
	var out [][]tiles.Tile
	for i := range n {
		out = append(out, ts[i*len(ts)/n:(i+1)*len(ts)/n])
	}
	return out
}

// notesOf is what to mind at a bucket. Common practice, no source; gloves over
// cuts and with soluble glazes are the usual caution.
func notesOf(coat int, g tiles.Glaze, s tiles.Settings) []string {
	var notes []string
	if coat == 2 {
		notes = append(notes, secondNote(s.Dip.SecondFrom))
	}
	for _, n := range []struct {
		trait tiles.Trait
		say   string
		coat  int
	}{
		{tiles.Soluble, "soluble salts: waterproof gloves", 0},
		{tiles.Runny, "runs: wipe the foot " + s.Units.Length(25) + " up", 0},
		{tiles.Crawls, "crawls over a coat: thin, on a touch-dry first", 2},
		{tiles.Colorant, "strong colorant: wash hands and tools after it", 0},
	} {
		if g.Has(n.trait) && (n.coat == 0 || n.coat == coat) {
			notes = append(notes, n.say)
		}
	}
	return notes
}
