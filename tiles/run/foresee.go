package run

import (
	"math"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/foresee"
	"github.com/twodip/twodip/tiles/plan"
)

// ForeseeWish is what a person asks foresee for.
type ForeseeWish struct {
	Next    int    // how many tiles to fire next; 0 = none, or six with Toward
	Toward  string // a wanted color as written, the name of a photo, or a tile's number; "" = what tells most
	Picture []byte // a photo's bytes; nil = Toward says it
	Plan    bool   // give those tiles their numbers and loads
}

// Foreseen is what a wall's fired tiles say of those that are not.
type Foreseen struct {
	foresee.Standing
	Guesses []Guess     // of every pair that may be made and has no reading; none where it does not speak
	Next    []Candidate // the tiles to fire next, the one that tells most, or is likeliest, first
	Wanted  *ColorSaid  // the color that Next is toward; nil = Next is what tells most
	Doubt   float64     // ± ΔE00 of the wanted color; 0 = as written
	Open    int         // pairs that may be made and have not been in the kiln
	Notes   []string    // what stands in the way, one sentence each
	Planned *Planned    // the plan with the tiles of Next; nil = nothing was planned
}

// Guess is the color to expect of a pair; half of such guesses on this wall
// are within Half of what comes out, nine in ten within Ninety, ΔE00.
type Guess struct {
	Pair   tiles.Pair
	Said   string // the pair in words
	Lab    color.Lab
	Words  string // the color in words, as finely as half of the guesses bear
	Half   float64
	Ninety float64
}

// Candidate is a pair to fire next.
type Candidate struct {
	Pair  tiles.Pair
	Said  string
	Tile  tiles.Number // its number in the plan; 0 = it has none yet
	Load  int          // the load it is planned for; 0 = none yet
	Guess *Guess       // nil where the wall does not speak
	Away  float64      // ΔE00 of the guess from the wanted color
}

// sixTiles is how many tiles toward a color are proposed, unless asked otherwise.
const sixTiles = 6

// Foresee says how well a wall's unfired pairs can be guessed, guesses them,
// and proposes which to fire next. It writes nothing, unless it shall plan.
func Foresee(dir folder.Folder, wish ForeseeWish) (Foreseen, error) {
	wall, err := Load(dir)
	if err != nil {
		return Foreseen{}, err
	}
	s := newForesight(wall)
	out := Foreseen{Standing: s.standing, Guesses: []Guess{}, Next: []Candidate{}, Open: len(s.toFire), Notes: s.notes()}
	if out.Speaks {
		for _, c := range s.open {
			out.Guesses = append(out.Guesses, s.guess(c))
		}
	}
	switch {
	case wish.Toward != "":
		err = s.toward(dir, wish, &out)
	case wish.Next > 0:
		for _, c := range s.Wall.Next(s.toFire, wish.Next, wall.Part.Pairs > 0 && wall.Part.Both) {
			out.Next = append(out.Next, s.candidate(c))
		}
	}
	if err == nil && wish.Plan && len(out.Next) > 0 {
		err = out.plan(dir)
	}
	return out, err
}

// plan gives the tiles of Next their numbers and loads.
func (f *Foreseen) plan(dir folder.Folder) error {
	var wish PlanWish
	for _, c := range f.Next {
		wish.Also = append(wish.Also, c.Pair)
	}
	planned, err := Plan(dir, wish)
	if err != nil {
		return err
	}
	f.Planned = &planned
	for i := range f.Next {
		if t, ok := planned.Wall.Own(f.Next[i].Pair); ok {
			f.Next[i].Tile, f.Next[i].Load = t.Number, t.Load
		}
	}
	return nil
}

// foresight is a wall with what its fired tiles teach.
type foresight struct {
	*foresee.Wall
	wall     tiles.Wall
	standing foresee.Standing
	open     []foresee.Cell // pairs that may be made and have no reading, in reading order
	toFire   []foresee.Cell // those of them that have not been in the kiln
	gone     []string       // glazes whose color alone is not known
	wait     int            // fired pairs that wait for a photo
}

func newForesight(w tiles.Wall) *foresight {
	s := &foresight{Wall: foresee.OfWall(w), wall: w}
	s.standing = s.Standing()
	if w.Dip.Coats == 1 {
		return s
	}
	fired := map[foresee.Cell]bool{}
	for _, t := range w.Tiles {
		if c, ok := s.Cell(t.Pair); ok && t.Own() && t.Status == tiles.Fired {
			fired[c] = true
		}
	}
	for _, a := range w.Glazes {
		if _, known := s.Place(a.Code); !known && !a.Retired {
			s.gone = append(s.gone, a.Name)
		}
		for _, b := range w.Glazes {
			s.consider(a, b, fired)
		}
	}
	return s
}

// consider adds a pair to those that may be guessed and fired.
func (s *foresight) consider(a, b tiles.Glaze, fired map[foresee.Cell]bool) {
	p := tiles.Pair{First: a.Code, Second: b.Code}
	c, ok := s.Cell(p)
	if !ok || s.Fired(c) || a.Retired || b.Retired || plan.Judge(s.wall.Settings, s.wall.Glazes, p).Do == plan.Skip {
		return
	}
	s.open = append(s.open, c)
	if fired[c] {
		s.wait++
	} else {
		s.toFire = append(s.toFire, c)
	}
}

func (s *foresight) guess(c foresee.Cell) Guess {
	lab, pair, radius := s.Guess(c.First, c.Second), s.Wall.Pair(c), s.standing.Radius
	return Guess{Pair: pair, Said: s.wall.Say(pair), Lab: lab, Words: color.Describe(lab, radius.Half), Half: radius.Half, Ninety: radius.Ninety}
}

func (s *foresight) candidate(c foresee.Cell) Candidate {
	pair := s.Wall.Pair(c)
	out := Candidate{Pair: pair, Said: s.wall.Say(pair)}
	if t, ok := s.wall.Own(pair); ok && t.Status == tiles.Planned {
		out.Tile, out.Load = t.Number, t.Load
	}
	if s.standing.Speaks {
		g := s.guess(c)
		out.Guess = &g
	}
	return out
}

// toward proposes the pairs whose guesses are nearest to a wanted color.
func (s *foresight) toward(dir folder.Folder, wish ForeseeWish, out *Foreseen) error {
	lab, err := s.wanted(dir, wish, out)
	if err != nil {
		return err
	}
	said := sayColor(lab, out.Doubt)
	out.Wanted = &said
	if !out.Speaks {
		return nil
	}
	count := wish.Next
	if count == 0 {
		count = sixTiles
	}
	for _, t := range s.Toward(lab, s.toFire, count) {
		c := s.candidate(t.Cell)
		c.Away = t.Away
		out.Next = append(out.Next, c)
	}
	return nil
}

// wanted is the color of a tile, of a photo, or as written.
func (s *foresight) wanted(dir folder.Folder, wish ForeseeWish, out *Foreseen) (color.Lab, error) {
	if n, err := tiles.ParseNumber(wish.Toward); err == nil && wish.Picture == nil {
		r, ok := tiles.ColorOf(s.wall.Readings, n)
		if !ok {
			return color.Lab{}, ErrNotAsked("--toward " + wish.Toward + ": tile " + n.String() + " has no reading; name one that has, a photo or a color")
		}
		out.Doubt = r.Doubt
		return color.Lab{L: r.L, A: r.A, B: r.B}, nil
	}
	found, lab, err := look(dir, s.wall, FindWish{What: wish.Toward, Picture: wish.Picture})
	out.Doubt, out.Notes = found.Doubt, append(out.Notes, found.Notes...)
	return lab, err
}

// round2 is a number to two places, as readings are written.
func round2(v float64) float64 { return math.Round(100*v) / 100 }
