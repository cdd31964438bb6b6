package plan

import (
	"fmt"
	"slices"

	"github.com/twodip/twodip/tiles"
)

// Placed is the plan with every tile that fits given its load and place.
type Placed struct {
	Tiles   []tiles.Tile
	Without []tiles.Number // planned tiles for which there is no place
	Notes   []string
}

// Place gives every planned tile a load, a shelf and a place on it.
//
// A load is a block: every glaze comes as evenly as possible first and second
// in each, both orders of a pair stand on one shelf, runny tiles low and on
// waste slabs, and each shelf in use has the controls that the settings name.
// Places are shuffled from the kiln's seed, the same each time.
//
// Tiles keep the place they have as long as their load fits the kiln; with anew
// every load that has not been fired is planned again. Controls are numbered as
// they are needed.
func Place(s tiles.Settings, glazes []tiles.Glaze, have []tiles.Tile, anew bool) Placed {
	p := newPlacing(s, glazes, have)
	if len(p.rooms) == 0 && len(s.Kiln.Shelves) > 0 {
		return p.Placed // its notes say that the kiln is too low
	}
	if len(p.rooms) == 0 {
		p.note("no shelf is named under kiln: shelves: in wall.yaml, so no loads are planned")
		return p.Placed
	}
	p.release(anew)
	p.fillLoads()
	p.setAside()
	return p.Placed
}

// placing is one run of Place.
type placing struct {
	Placed
	s        tiles.Settings
	glazes   []tiles.Glaze
	index    map[string]int
	rooms    []*room      // the shelves in use, from the bottom up
	controls []tiles.Pair // what is fired again on every shelf
	apart    bool         // no shelf holds both orders of a pair
}

func newPlacing(s tiles.Settings, glazes []tiles.Glaze, have []tiles.Tile) *placing {
	p := &placing{s: s, glazes: glazes, index: map[string]int{}}
	p.Tiles = slices.Clone(have)
	for i, g := range glazes {
		p.index[tiles.CodeKey(g.Code)] = i
	}
	shelves := kilnShelves(s)
	switch out := len(s.Kiln.Shelves) - len(shelves); {
	case out > 0 && len(shelves) == 0:
		p.note("kiln: height is %g mm, too low for one shelf and the %g mm posts over it, so no loads are planned; write the height inside, from the floor to the lid, or 0 not to check it",
			s.Kiln.Height, clearance(s))
	case out > 0:
		p.note("the kiln is %g mm high: with %g mm posts it takes %d of its %d shelves; the top is left out",
			s.Kiln.Height, clearance(s), len(shelves), len(s.Kiln.Shelves))
	}
	for i, shelf := range shelves {
		p.rooms = append(p.rooms, newRoom(s, shelf, postsOn(s, i, len(shelves)), p.slabs()))
	}
	for _, code := range s.Kiln.Controls {
		if pair, ok := p.controlPair(code); ok {
			p.controls = append(p.controls, pair)
		}
	}
	return p
}

// slabs is how many tiles of the plan may need a waste slab, controls included.
func (p *placing) slabs() int {
	n := len(p.s.Kiln.Controls)
	for _, t := range p.Tiles {
		if t.Status == tiles.Planned && p.runny(t.Pair) {
			n++
		}
	}
	return n
}

func (p *placing) note(format string, args ...any) {
	p.Notes = append(p.Notes, fmt.Sprintf(format, args...))
}

// inUse says that the tile is made or to be made.
func inUse(t tiles.Tile) bool { return t.Status == tiles.Planned || t.Status == tiles.Fired }

// release takes planned tiles out of loads that do not stand any more. A load
// that has been fired stands: what is planned in it waits for its photo.
func (p *placing) release(anew bool) {
	fired := inKiln(p.Tiles)
	byLoad := map[int][]int{}
	for i, t := range p.Tiles {
		switch {
		case t.Was == tiles.Planned:
			p.unplace(i)
		case t.Status == tiles.Planned && t.Load > 0 && !fired[t.Load]:
			byLoad[t.Load] = append(byLoad[t.Load], i)
		}
	}
	for _, rows := range byLoad {
		if anew || !p.stands(rows) {
			for _, i := range rows {
				p.unplace(i)
			}
		}
	}
}

func (p *placing) unplace(i int) {
	t := &p.Tiles[i]
	t.Load, t.Shelf, t.X, t.Y = 0, "", 0, 0
}

// stands says that a load's places still fit the kiln, the tile and the
// controls as the settings have them now.
func (p *placing) stands(rows []int) bool {
	byShelf := map[string][]int{}
	for _, i := range rows {
		byShelf[p.Tiles[i].Shelf] = append(byShelf[p.Tiles[i].Shelf], i)
	}
	for name, rows := range byShelf {
		r := p.roomNamed(name)
		if r == nil || !p.fits(r, rows) || !p.hasControls(rows) {
			return false
		}
	}
	return true
}

func (p *placing) roomNamed(name string) *room {
	for _, r := range p.rooms {
		if r.shelf.Name == name {
			return r
		}
	}
	return nil
}

// fits says that the tiles stand on the shelf, clear of posts and one another.
func (p *placing) fits(r *room, rows []int) bool {
	taken := slices.Clone(r.posts)
	for _, i := range rows {
		t := p.Tiles[i]
		f := r.plain
		if p.runny(t.Pair) {
			f = r.slab
		}
		width, depth := f.outer()
		b := around(t.X, t.Y, width, depth)
		if !b.on(r.shelf) || slices.ContainsFunc(taken, b.overlaps) {
			return false
		}
		taken = append(taken, b)
	}
	return true
}

// fillLoads places every planned tile that has no place into new loads.
func (p *placing) fillLoads() {
	var rows []int
	last := 0
	for i, t := range p.Tiles {
		last = max(last, t.Load)
		if t.Status == tiles.Planned && t.Load == 0 && !p.s.Kiln.IsControl(t) {
			rows = append(rows, i)
		}
	}
	units := p.leaveOut(p.units(rows))
	if len(units) == 0 {
		return
	}
	for i, l := range p.fewest(units) {
		p.lay(last+1+i, l)
	}
}
