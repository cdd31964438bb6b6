package run

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/record"
)

// PlanWish is what a person asks plan for.
type PlanWish struct {
	Anew bool         // place all tiles that are not fired yet afresh, in as few loads as hold them
	Also []tiles.Pair // pairs to number beyond the part
	Yes  bool         // even where many tiles would go out of use
	Seen string       // of the plan that the person looked at: no other is written; "" = whichever it is
}

// Planned is the plan, and the wall with the plan's rows.
type Planned struct {
	Wall tiles.Wall
	plan.Plan
}

// MarshalJSON says the plan for programs.
func (p Planned) MarshalJSON() ([]byte, error) { return json.Marshal(outlineOf(p.Wall, p.Plan)) }

// Plan gives every pair its number, places the tiles, and writes tiles/plan.csv.
func Plan(dir folder.Folder, wish PlanWish) (Planned, error) {
	c, err := take(dir)
	if err != nil {
		return Planned{}, err
	}
	defer c.end()
	p, err := LookAtPlan(dir, wish)
	if err != nil {
		return p, err
	}
	if wish.Seen != "" && wish.Seen != p.Seen() {
		now, _, err := Look(dir, record.PlanFile)
		return p, errors.Join(err, ErrStale{File: record.PlanFile, Now: now})
	}
	if ps := p.Asks(dir); len(ps) > 0 && !wish.Yes {
		return p, ps
	}
	if err := c.begin(); err != nil {
		return p, err
	}
	if err := recodeRecords(dir, p.Wall); err != nil {
		return p, err
	}
	return p, record.WriteTiles(dir, p.Wall.Tiles)
}

// LookAtPlan is the plan that would be made; nothing is written.
func LookAtPlan(dir folder.Folder, wish PlanWish) (Planned, error) {
	var r Records
	var err error
	if r.Wall, err = Load(dir); err != nil {
		return Planned{}, err
	}
	if err := r.ReadBuckets(dir); err != nil {
		return Planned{}, err
	}
	p, err := plan.Make(plan.Wish{Wall: r.Wall, Anew: wish.Anew, Also: wish.Also, Batches: r.Batches, Firings: r.Loads, Moved: r.Drift().Due()})
	r.Wall.Tiles = p.Tiles
	return Planned{r.Wall, p}, err
}

// Explained says why a pair or a tile is as it is.
type Explained struct {
	Pair tiles.Pair
	Tile tiles.Tile // number 0 = there is none
	Said string     // the tile and its pair in words
	Why  []plan.Line
}

// MarshalJSON says it for programs.
func (e Explained) MarshalJSON() ([]byte, error) { return json.Marshal(reasonsOf(e)) }

// ErrNotAsked is the error of a question that cannot be understood.
type ErrNotAsked string

func (e ErrNotAsked) Error() string { return string(e) }

// Explain explains one tile (17) or one pair by its codes, first and second
// (W,K), and writes nothing.
func Explain(dir folder.Folder, what string) (Explained, error) {
	p, err := LookAtPlan(dir, PlanWish{})
	if err != nil {
		return Explained{}, err
	}
	w := p.Wall
	pair, t, err := pairOrTile(w, what)
	if err != nil {
		return Explained{}, err
	}
	e := Explained{Pair: pair, Tile: t, Said: w.Say(pair), Why: plan.Why(w, pair)}
	if t.Number > 0 {
		e.Why = plan.WhyTile(w, t)
		e.Said = fmt.Sprintf("tile %d: %s, %s", t.Number, e.Said, t.Status)
	}
	return e, nil
}

// pairOrTile reads what to explain: a tile's number, or codes as plan.csv has
// them, "W,K" for 1st W → 2nd K and "W" or "W," for W alone. A number that is
// also a glaze's code means the tile.
func pairOrTile(w tiles.Wall, what string) (tiles.Pair, tiles.Tile, error) {
	if n, err := tiles.ParseNumber(what); err == nil {
		if t, ok := w.Tile(n); ok {
			return t.Pair, t, nil
		}
	}
	first, second, _ := strings.Cut(strings.ReplaceAll(what, "→", ","), ",")
	pair := tiles.Pair{First: strings.TrimSpace(first), Second: strings.TrimSpace(second)}
	for _, code := range []string{pair.First, pair.Second} {
		if code == "" && pair.First != "" {
			continue
		}
		if _, ok := tiles.FindGlaze(w.Glazes, code); !ok {
			return pair, tiles.Tile{}, ErrNotAsked(fmt.Sprintf("--why %s: there is no tile and no glaze %q; write a tile's number (17) or two codes, first and second (W,K)", what, code))
		}
	}
	t, _ := w.Own(pair)
	return pair, t, nil
}

// Verdicts says what the rules say of pairs: why one is skipped, and what to
// mind with another; "" = nothing.
func Verdicts(w tiles.Wall) (skipped, caution func(tiles.Pair) string) {
	result, err := plan.Extend(w.Settings, w.Glazes, w.Tiles)
	if err != nil {
		return nil, nil // the plan says so when it is made; the site shows what hangs
	}
	return reasons(result.Skipped), reasons(result.Cautions)
}

func reasons(vs []plan.Verdict) func(tiles.Pair) string {
	by := map[tiles.Pair]string{}
	for _, v := range vs {
		by[v.Pair.Key()] = v.Reason()
	}
	return func(p tiles.Pair) string { return by[p.Key()] }
}
