package plan

import (
	"fmt"
	"slices"

	"github.com/twodip/twodip/tiles"
)

// Given is what is known of a number from another place than the plan.
type Given struct {
	Number tiles.Number
	tiles.Pair
	By string // where it stands: "tiles/measured.csv"
}

// GivenByReadings is what the readings say of their tiles. A reading of a time
// when that was not kept still says that its number was given.
func GivenByReadings(rs []tiles.Reading, file string) []Given {
	var out []Given
	seen := map[tiles.Number]tiles.Pair{}
	for _, r := range rs {
		if before, ok := seen[r.Tile]; ok && before == r.Carried {
			continue
		}
		seen[r.Tile] = r.Carried
		out = append(out, Given{Number: r.Tile, Pair: r.Carried, By: file})
	}
	return out
}

// GivenByPlan is what an earlier version of the plan says of its numbers.
func GivenByPlan(ts []tiles.Tile, version string) []Given {
	out := make([]Given, len(ts))
	for i, t := range ts {
		out[i] = Given{Number: t.Number, Pair: t.Pair, By: version}
	}
	return out
}

// Clash is how a plan disagrees with what else is known of its numbers.
type Clash struct {
	Lost  []Given // numbers that have no row any more, by number
	Other []Given // numbers whose row names other glazes now, by number
	Now   map[tiles.Number]tiles.Pair
}

// Held holds a plan's rows against what else is known of the numbers: each was
// given once, to one single or pair, and a row that is gone or names other
// glazes means that the plan was lost, replaced, or mangled in a spreadsheet.
func Held(ts []tiles.Tile, given []Given) Clash {
	c := Clash{Now: map[tiles.Number]tiles.Pair{}}
	for _, t := range ts {
		c.Now[t.Number] = t.Pair
	}
	told := map[tiles.Number]bool{}
	for _, g := range given {
		now, there := c.Now[g.Number]
		switch {
		case told[g.Number]:
			continue
		case !there:
			c.Lost = append(c.Lost, g)
		case g.First != "" && !now.Same(g.Pair):
			c.Other = append(c.Other, g)
		default:
			continue
		}
		told[g.Number] = true
	}
	byNumber := func(a, b Given) int { return int(a.Number - b.Number) }
	slices.SortFunc(c.Lost, byNumber)
	slices.SortFunc(c.Other, byNumber)
	return c
}

// None says that the plan agrees with everything.
func (c Clash) None() bool { return len(c.Lost)+len(c.Other) == 0 }

// Renamed is the code that was changed to another, where that alone explains
// every row that disagrees: someone typed a new code over the old one in the
// plan, row by row.
func (c Clash) Renamed() (old, now string, ok bool) {
	if len(c.Lost) > 0 || len(c.Other) == 0 {
		return "", "", false
	}
	for _, g := range c.Other {
		is := c.Now[g.Number]
		for _, coat := range [][2]string{{g.First, is.First}, {g.Second, is.Second}} {
			switch {
			case tiles.SameCode(coat[0], coat[1]):
			case coat[0] == "" || coat[1] == "":
				return "", "", false
			case old == "":
				old, now = coat[0], coat[1]
			case !tiles.SameCode(coat[0], old) || !tiles.SameCode(coat[1], now):
				return "", "", false
			}
		}
	}
	for _, p := range c.Now {
		if old != "" && p.Has(old) {
			return "", "", false // it is still in use: rows were mixed up
		}
	}
	return old, now, old != ""
}

// Problems says the clash for a person: first what was lost, then what was
// changed.
func (c Clash) Problems(file string, back Back) tiles.Problems {
	var ps tiles.Problems
	if n := len(c.Lost); n > 0 {
		ps = append(ps, back.add(tiles.Problem{File: file, What: c.lost()}))
	}
	if n := len(c.Other); n > 0 {
		p := back.add(tiles.Problem{File: file, What: c.other()})
		if old, now, ok := c.Renamed(); ok {
			p.Do = fmt.Sprintf("where %s has a new code, put %s back and say: twodip rename %s %s", old, old, old, now)
			p.Page = fmt.Sprintf("where %s has a new code, put %s back on the page Glazes, save, and then type %s there", old, old, now)
		}
		ps = append(ps, p)
	}
	return ps
}

func (c Clash) lost() string {
	g := c.Lost[0]
	if len(c.Lost) == 1 {
		return fmt.Sprintf("tile %d stands in %s and has no row here: the row was deleted, or the file replaced by an older one", g.Number, g.By)
	}
	n := 0
	for _, other := range c.Lost {
		if other.By == g.By {
			n++
		}
	}
	if n == 1 {
		return fmt.Sprintf("tile %d stands in %s and has no row here: the file was lost, cut short or replaced by an older one", g.Number, g.By)
	}
	return fmt.Sprintf("%d tiles stand in %s and have no row here, tile %d the first: the file was lost, cut short or replaced by an older one", n, g.By, g.Number)
}

func (c Clash) other() string {
	g := c.Other[0]
	one := fmt.Sprintf("tile %d is %s in %s and %s here", g.Number, g.Pair, g.By, c.Now[g.Number])
	if n := len(c.Other); n > 1 {
		return fmt.Sprintf("%s, and so with %d tiles in all: a column was sorted by itself, or the file replaced", one, n)
	}
	return one
}

// Back is how an earlier plan is brought back with which nothing disagrees: by a
// command, and by what the bench's page Plan lists. The zero value is that none
// is kept.
type Back struct{ Command, Version string }

func (b Back) add(p tiles.Problem) tiles.Problem {
	if b.Command == "" {
		p.Do = "put back the file as it was; a number is never given again"
		return p
	}
	p.Do = b.Command + " brings it back as it was"
	p.Page = "on the page Plan, bring back the version of " + b.Version
	return p
}
