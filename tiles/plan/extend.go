package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// Result is the plan after Extend: all its rows and what is new in them.
type Result struct {
	Tiles    []tiles.Tile   // every number ever given, in order
	Added    []tiles.Number // given now
	Changed  []Change       // rows whose status the plan changed now
	Gone     []string       // codes of tiles that left the list as others came, which may be the same buckets
	Come     []string       // codes that came then and have no tile yet
	Skipped  []Verdict      // pairs the rules skip, in reading order
	Cautions []Verdict      // pairs made with care, in reading order
	Later    int            // pairs the rules allow but part: does not ask for yet
	Notes    []string       // what the teacher should know, one sentence each
}

// Change is a row whose status the plan changed.
type Change struct {
	Tile tiles.Tile // as it is now
	From tiles.Status
}

// Extend gives every pair of the list that the settings ask for its tile. Rows
// already there keep their numbers and pairs whatever happens to the list; new
// tiles are numbered after all of them, in the order the wall is read: the
// first glaze down the side, the second along the top.
//
// A number stays when its glaze is retired or leaves the list (status retired),
// when a rule comes to skip its pair (status skipped), and comes back into use
// when the reason goes. A status set by the teacher is never changed back; a
// tile the teacher retired is broken, and its pair gets a new number.
func Extend(s tiles.Settings, glazes []tiles.Glaze, have []tiles.Tile) (Result, error) {
	return extend(s, glazes, have, nil)
}

// extend is Extend with pairs asked for beyond the part.
func extend(s tiles.Settings, glazes []tiles.Glaze, have []tiles.Tile, also []tiles.Pair) (Result, error) {
	if err := check(s, have); err != nil {
		return Result{}, err
	}
	e := &extension{s: s, glazes: glazes, judge: newJudge(s, glazes)}
	e.Tiles = slices.Clone(have)
	slices.SortStableFunc(e.Tiles, func(a, b tiles.Tile) int { return int(a.Number - b.Number) })
	for i := range e.Tiles {
		e.settle(&e.Tiles[i])
	}
	all := e.wanted()
	wanted := e.also(e.portion(all), all, also)
	for _, p := range wanted {
		if v := e.judge.pair(p); v.Do == Caution {
			e.Cautions = append(e.Cautions, v)
		}
	}
	e.number(wanted)
	e.noteRecoded(have)
	return e.Result, enoughNumbers(e.Tiles)
}

// check refuses what no plan can be made of.
func check(s tiles.Settings, have []tiles.Tile) error {
	var ps tiles.Problems
	if s.Dip.Coats > 2 {
		ps = append(ps, tiles.Problem{File: "wall.yaml", What: fmt.Sprintf("dip: coats: %d coats on one tile", s.Dip.Coats),
			Do: "ask for 1 or 2; thick stacks run, crack and fall off, and three coats of n glazes are n³ tiles"})
	}
	numbers := map[tiles.Number]bool{}
	for _, t := range have {
		if numbers[t.Number] {
			ps = append(ps, tiles.Problem{File: "tiles/plan.csv", What: fmt.Sprintf("tile %d stands twice", t.Number),
				Do: "keep the row that is written on the tile's back"})
		}
		numbers[t.Number] = true
	}
	return ps.OrNil()
}

// extension is one run of Extend.
type extension struct {
	Result
	s      tiles.Settings
	glazes []tiles.Glaze
	judge  *judge
}

// settle brings a row's status in line with the list and the rules.
func (e *extension) settle(t *tiles.Tile) {
	from := t.Status
	status, reason := e.stand(*t)
	switch {
	case t.Was != "" && status == "": // what took it is gone
		t.Status, t.Was, t.Reason, t.Earlier = t.Was, "", t.Earlier, ""
	case t.Was != "":
		t.Status, t.Reason = status, reason
	case status != "" && (from == tiles.Planned || from == tiles.Fired):
		t.Status, t.Was, t.Reason, t.Earlier = status, from, reason, t.Reason
	}
	if t.Status != from {
		e.Changed = append(e.Changed, Change{Tile: *t, From: from})
	}
}

// stand says whether the list or a rule takes the row out of use, and why.
func (e *extension) stand(t tiles.Tile) (tiles.Status, string) {
	for _, code := range codesOf(t.Pair) {
		i, ok := e.judge.index[tiles.CodeKey(code)]
		if !ok {
			return tiles.Retired, "glaze " + code + " is no longer in the list"
		}
		if e.glazes[i].Retired {
			return tiles.Retired, "glaze " + code + " is retired"
		}
	}
	if v := e.judge.pair(t.Pair); v.Do == Skip {
		return tiles.Skipped, v.Reason()
	}
	if made := t.Status == tiles.Fired || t.Was == tiles.Fired; !made && t.Own() && !e.asked(t.Pair) {
		return tiles.Skipped, "not asked for: " + e.asks()
	}
	return "", ""
}

func codesOf(p tiles.Pair) []string {
	if p.Single() || p.Double() {
		return []string{p.First}
	}
	return []string{p.First, p.Second}
}

// asked says whether the settings ask for tiles of the pair's kind.
func (e *extension) asked(p tiles.Pair) bool {
	switch {
	case p.Single():
		return e.s.Diagonal != tiles.DiagonalDouble || e.s.Dip.Coats == 1
	case e.s.Dip.Coats == 1:
		return false
	case p.Double():
		return e.s.Diagonal == tiles.DiagonalDouble || e.s.Diagonal == tiles.DiagonalBoth
	}
	return true
}

// asks says in the words of wall.yaml which kinds of tile are asked for.
func (e *extension) asks() string {
	if e.s.Dip.Coats == 1 {
		return "dip: coats: 1"
	}
	return "diagonal: " + string(cmp.Or(e.s.Diagonal, tiles.DiagonalSingle))
}

// wanted lists the pairs the wall should have, in reading order.
func (e *extension) wanted() []tiles.Pair {
	var active []tiles.Glaze
	for _, g := range e.glazes {
		if !g.Retired {
			active = append(active, g)
		}
	}
	var all []tiles.Pair
	for _, a := range active {
		for _, b := range active {
			if !tiles.SameCode(a.Code, b.Code) {
				all = e.want(all, tiles.Pair{First: a.Code, Second: b.Code})
				continue
			}
			all = e.want(all, tiles.Pair{First: a.Code})
			all = e.want(all, tiles.Pair{First: a.Code, Second: a.Code})
		}
	}
	return all
}

// want adds the pair unless the settings or a rule leave it out.
func (e *extension) want(all []tiles.Pair, p tiles.Pair) []tiles.Pair {
	if !e.asked(p) {
		return all
	}
	if v := e.judge.pair(p); v.Do == Skip {
		e.Skipped = append(e.Skipped, v)
		return all
	}
	return append(all, p)
}

// number gives the next numbers to the wanted pairs that have no tile in use.
func (e *extension) number(wanted []tiles.Pair) {
	own, broken := e.standing()
	next, round := e.last()
	for _, p := range wanted {
		key := p.Key()
		if own[key] {
			continue
		}
		next++
		t := tiles.Tile{Number: next, Pair: p, Status: tiles.Planned, Round: round + 1}
		if n, ok := broken[key]; ok {
			t.Reason = "replaces tile " + n.String()
		}
		e.Tiles = append(e.Tiles, t)
		e.Added = append(e.Added, next)
	}
}

// standing says which pairs need no new tile, and which lost theirs by hand.
func (e *extension) standing() (own map[tiles.Pair]bool, broken map[tiles.Pair]tiles.Number) {
	own, broken = map[tiles.Pair]bool{}, map[tiles.Pair]tiles.Number{}
	for _, t := range e.Tiles {
		switch {
		case !t.Own():
		case t.Status == tiles.Retired && t.Was == "":
			broken[t.Pair.Key()] = t.Number
		default:
			own[t.Pair.Key()] = true
		}
	}
	return own, broken
}

// last is the highest number and round given so far.
func (e *extension) last() (n tiles.Number, round int) {
	for _, t := range e.Tiles {
		n, round = max(n, t.Number), max(round, t.Round)
	}
	return n, round
}

// noteRecoded says where one code left the list as another came: where only
// the code was changed, the old tiles are better kept under the old code.
func (e *extension) noteRecoded(have []tiles.Tile) {
	var gone, come []string
	for _, c := range e.Changed {
		for _, code := range codesOf(c.Tile.Pair) {
			if _, ok := e.judge.index[tiles.CodeKey(code)]; !ok && !slices.Contains(gone, code) {
				gone = append(gone, code)
			}
		}
	}
	known := map[string]bool{}
	for _, t := range have {
		known[tiles.CodeKey(t.First)] = true
		known[tiles.CodeKey(t.Second)] = true
	}
	for _, g := range e.glazes {
		if !known[tiles.CodeKey(g.Code)] {
			come = append(come, g.Code)
		}
	}
	if len(gone) > 0 && len(come) > 0 {
		e.Gone, e.Come = gone, come
		e.Notes = append(e.Notes, fmt.Sprintf("%s left the list and %s came: if that is one bucket under a new code, put the old code back, then rename it",
			strings.Join(gone, ", "), strings.Join(come, ", ")))
	}
}
