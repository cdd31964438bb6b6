package plan

import (
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
)

// stack is one load being filled: a block a shelf, from the bottom up.
type stack []*block

// leaveOut takes away units that no shelf holds and says so; pairs that no
// shelf holds together are taken apart.
func (p *placing) leaveOut(units []*unit) []*unit {
	var fit []*unit
	for _, u := range units {
		switch {
		case p.canHold(u.runny, u.size()):
			fit = append(fit, u)
		case u.size() > 1 && p.canHold(u.runny, 1):
			p.apart = true
			fit = append(fit, u.split()...)
		default:
			for _, i := range u.tiles {
				p.Without = append(p.Without, p.Tiles[i].Number)
			}
		}
	}
	if p.apart {
		p.note("no shelf holds two such tiles: the two orders of a pair are fired on different shelves")
	}
	if len(p.Without) > 0 {
		f := footprintOf(p.s, false)
		p.note("%s on no shelf: each needs %g × %g mm and %g mm around it, beside %s",
			english.Count(len(p.Without), "tile fits", "tiles fit"), f.width, f.depth, f.margin, english.Count(len(p.controls), "control", "controls"))
	}
	return fit
}

// canHold says that some shelf holds so many tiles and its controls.
func (p *placing) canHold(runny bool, n int) bool {
	return slices.ContainsFunc(p.rooms, func(r *room) bool {
		b := p.emptyShelf()
		b.size += n
		if runny {
			b.slabs += n
		}
		return r.has(b)
	})
}

// has says that the shelf holds what the block counts.
func (r *room) has(b *block) bool { return r.holds(b.slabs) >= b.size-b.slabs }

// emptyShelf is a shelf with nothing but its controls.
func (p *placing) emptyShelf() *block {
	b := newBlock(len(p.glazes))
	for _, pair := range p.controls {
		b.size++
		if p.runny(pair) {
			b.slabs++
		}
	}
	return b
}

func (u *unit) split() []*unit {
	var one []*unit
	for i := range u.tiles {
		one = append(one, &unit{tiles: u.tiles[i : i+1], first: u.first[i : i+1], over: u.over[i : i+1], runny: u.runny, early: u.early})
	}
	return one
}

// fewest fills as few loads as hold all units. Blocks are made even only once
// their number is known: a kiln that holds few tiles would take long otherwise.
func (p *placing) fewest(units []*unit) []stack {
	units = slices.Clone(units)
	shuffle(units, p.s.Kiln.Seed, 0)
	slices.SortStableFunc(units, func(a, b *unit) int { return b.size() - a.size() })
	for n := p.atLeast(units); ; {
		blocks := spread(units, len(p.glazes), n)
		loads := p.stackAll(blocks)
		if short := n - len(loads); short > 0 {
			n += max(1, short/8)
			continue
		}
		if evened := p.stackAll(even(units, blocks, lot(p.s.Kiln.Seed, uint64(n)))); len(evened) == n {
			return evened
		}
		return loads
	}
}

// stackAll fills the loads whose block fits.
func (p *placing) stackAll(blocks []*block) []stack {
	var loads []stack
	for _, b := range blocks {
		if l, ok := p.stack(b.units); ok {
			loads = append(loads, l)
		}
	}
	return loads
}

// atLeast is a number of loads below which the tiles cannot fit: each load
// holds no more than its shelves do with its share of waste slabs.
func (p *placing) atLeast(units []*unit) int {
	all, slabs := 0, 0
	for _, u := range units {
		all += u.size()
		if u.runny {
			slabs += u.size()
		}
	}
	for n := 1; ; n++ {
		if p.couldHold((all-slabs)/n, slabs/n) || n >= all {
			return n
		}
	}
}

// couldHold says that one load may hold so many plain tiles and so many on slabs.
func (p *placing) couldHold(plain, slabs int) bool {
	for _, r := range p.rooms {
		b := p.emptyShelf()
		for slabs > 0 && r.holds(b.slabs+1) >= b.size-b.slabs {
			b.slabs++
			b.size++
			slabs--
		}
		if room := r.holds(b.slabs) - (b.size - b.slabs); room > 0 {
			plain -= room
		}
	}
	return plain <= 0 && slabs == 0
}

// stack fills as few shelves of one load as hold its units, from the bottom up;
// ok is false where not all fit.
func (p *placing) stack(units []*unit) (l stack, ok bool) {
	for shelves := 1; shelves <= len(p.rooms) && !ok; shelves++ {
		l, ok = p.stackOn(shelves, units)
	}
	return l, ok
}

// stackOn fills the lowest shelves: runny units from the bottom up, the others
// where their glazes are rarest.
func (p *placing) stackOn(shelves int, units []*unit) (l stack, ok bool) {
	for range shelves {
		l = append(l, p.emptyShelf())
	}
	units = slices.Clone(units)
	slices.SortStableFunc(units, func(a, b *unit) int {
		if a.runny != b.runny {
			if a.runny {
				return -1
			}
			return 1
		}
		return b.size() - a.size()
	})
	for _, u := range units {
		shelf := p.shelfFor(u, l)
		if shelf < 0 {
			return nil, false
		}
		l[shelf].count(u, 1)
		l[shelf].units = append(l[shelf].units, u)
	}
	return l, true
}

// shelfFor picks the shelf of a unit; −1 where none has room.
func (p *placing) shelfFor(u *unit, l stack) int {
	best, least := -1, 0
	for i, b := range l {
		b.count(u, 1)
		fits := p.rooms[i].has(b)
		b.count(u, -1)
		if !fits {
			continue
		}
		if u.runny {
			return i
		}
		if price := b.price(u); best < 0 || price < least {
			best, least = i, price
		}
	}
	return best
}

// lay gives the tiles of a load, and the controls beside them, their places.
func (p *placing) lay(load int, l stack) {
	for i, b := range l {
		if len(b.units) == 0 {
			continue
		}
		var rows []int
		for _, u := range b.units {
			rows = append(rows, u.tiles...)
		}
		for _, pair := range p.controls {
			rows = append(rows, p.controlRow(pair))
		}
		spots := p.rooms[i].spots(b.slabs)
		shuffle(spots, p.s.Kiln.Seed, uint64(load)<<8|uint64(i))
		for _, row := range rows {
			t := &p.Tiles[row]
			runny := p.runny(t.Pair)
			at := slices.IndexFunc(spots, func(s spot) bool { return s.slab == runny })
			t.Load, t.Shelf, t.X, t.Y = load, p.rooms[i].shelf.Name, spots[at].x, spots[at].y
			spots = slices.Delete(spots, at, at+1)
		}
	}
}

// kilnShelves are the kiln's shelves from the bottom up, as many as its height takes.
func kilnShelves(s tiles.Settings) []tiles.Shelf {
	shelves := slices.Clone(s.Kiln.Shelves)
	slices.Reverse(shelves)
	if s.Kiln.Height > 0 {
		shelves = shelves[:min(len(shelves), tiers(s))]
	}
	return shelves
}

// Floor is the post under the lowest shelf and Slab the thickness of a kiln
// shelf, in mm (common practice, no source).
const (
	Floor = 25
	Slab  = 16
)

// tiers is how many shelves the kiln's height takes.
func tiers(s tiles.Settings) int {
	return max(0, int((s.Kiln.Height-Floor)/(clearance(s)+Slab)))
}

// postsOn are the posts on a shelf: none on the top one, which carries nothing.
func postsOn(s tiles.Settings, level, levels int) []Post {
	if level == levels-1 {
		return nil
	}
	return posts(kilnShelves(s)[level], s.Kiln.Post)
}

// Holds is how many tiles without waste slabs one load holds.
func Holds(s tiles.Settings) int {
	n := 0
	for _, r := range newPlacing(s, nil, nil).rooms {
		n += max(0, r.holds(0))
	}
	return n
}
