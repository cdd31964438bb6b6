package plan

import (
	"slices"

	"github.com/twodip/twodip/tiles"
)

// unit is what goes on one shelf together: a tile, or both orders of a pair.
type unit struct {
	tiles []int // indexes into the plan's rows
	runny bool  // stands on waste slabs
	early bool  // one of its glazes is preferred
	first []int // glaze of each tile's first coat
	over  []int // glaze of each tile's second coat; −1 = single
}

func (u *unit) size() int { return len(u.tiles) }

// units groups the rows to place. Both orders of a pair are one unit, so that
// they are fired on one shelf; glazes are counted by their place in the list.
func (p *placing) units(rows []int) []*unit {
	byPair := map[tiles.Pair]*unit{}
	var all []*unit
	for _, i := range rows {
		t := p.Tiles[i]
		u := p.newUnit(t)
		if p.together(t) {
			if other := byPair[t.Reverse().Key()]; other != nil {
				other.take(i, u.first[0], u.over[0])
				continue
			}
			byPair[t.Pair.Key()] = u
		}
		u.tiles = []int{i}
		all = append(all, u)
	}
	return all
}

// together says that the tile waits for its pair's other order.
func (p *placing) together(t tiles.Tile) bool {
	return t.Own() && !t.Single() && !t.Double()
}

func (u *unit) take(row, first, over int) {
	u.tiles = append(u.tiles, row)
	u.first = append(u.first, first)
	u.over = append(u.over, over)
}

func (p *placing) newUnit(t tiles.Tile) *unit {
	u := &unit{runny: p.runny(t.Pair), first: []int{p.glaze(t.First)}, over: []int{-1}}
	if !t.Single() {
		u.over[0] = p.glaze(t.Second)
	}
	u.early = slices.ContainsFunc(p.s.Part.Prefer, t.Has)
	return u
}

func (p *placing) glaze(code string) int { return p.index[tiles.CodeKey(code)] }

// runny says that one of the pair's glazes runs, so that the tile stands on a
// waste slab.
func (p *placing) runny(pair tiles.Pair) bool {
	for _, code := range []string{pair.First, pair.Second} {
		if i, ok := p.index[tiles.CodeKey(code)]; ok && p.glazes[i].Has(tiles.Runny) {
			return true
		}
	}
	return false
}

func runs(glazes []tiles.Glaze, pair tiles.Pair) bool {
	for _, code := range codesOf(pair) {
		if g, ok := tiles.FindGlaze(glazes, code); ok && g.Has(tiles.Runny) {
			return true
		}
	}
	return false
}
