package plan

import (
	"slices"

	"github.com/twodip/twodip/tiles"
)

// Controls are the same tile fired again on every shelf of every load: they
// tell a change of firing from a change of batch, and how far two firings of
// one glaze lie apart (blocking: Montgomery, Design and Analysis of
// Experiments, ch. 4).

// controlPair is the pair a control repeats: the glaze's single, or its double
// where the wall has no single.
func (p *placing) controlPair(code string) (tiles.Pair, bool) {
	for _, pair := range []tiles.Pair{{First: code}, {First: code, Second: code}} {
		if own, ok := p.own(pair); ok {
			return own.Pair, true
		}
	}
	p.note("kiln: controls: %s has no tile to repeat", code)
	return tiles.Pair{}, false
}

// own is the wall's own tile of the pair that is in use.
func (p *placing) own(pair tiles.Pair) (tiles.Tile, bool) {
	i := slices.IndexFunc(p.Tiles, func(t tiles.Tile) bool { return t.Own() && inUse(t) && t.Pair.Same(pair) })
	if i < 0 {
		return tiles.Tile{}, false
	}
	return p.Tiles[i], true
}

// hasControls says that a shelf's tiles hold each control once and no other.
func (p *placing) hasControls(rows []int) bool {
	have := 0
	for _, i := range rows {
		t := p.Tiles[i]
		if !p.s.Kiln.IsControl(t) {
			continue
		}
		if !slices.ContainsFunc(p.controls, t.Pair.Same) {
			return false
		}
		have++
	}
	return have == len(p.controls)
}

// controlRow is a control without a place: one that was numbered before and is
// not needed elsewhere, or a new one.
func (p *placing) controlRow(pair tiles.Pair) int {
	for i, t := range p.Tiles {
		spare := t.Status == tiles.Planned || (t.Status == tiles.Skipped && t.Was == tiles.Planned)
		if p.s.Kiln.IsControl(t) && t.Load == 0 && spare && t.Pair.Same(pair) {
			p.Tiles[i].Status, p.Tiles[i].Was, p.Tiles[i].Reason = tiles.Planned, "", controlReason
			return i
		}
	}
	own, _ := p.own(pair)
	p.Tiles = give(p.Tiles, tiles.Tile{Pair: pair, Status: tiles.Planned, Repeats: own.Number, Control: true, Reason: controlReason})
	return len(p.Tiles) - 1
}

const (
	controlReason = "control: fired on every shelf"
	spareReason   = "no shelf asks for this control"
)

// setAside skips controls that no shelf needs, so that nobody makes them.
func (p *placing) setAside() {
	for i, t := range p.Tiles {
		if p.s.Kiln.IsControl(t) && t.Status == tiles.Planned && t.Load == 0 {
			p.Tiles[i].Status, p.Tiles[i].Was, p.Tiles[i].Reason = tiles.Skipped, tiles.Planned, spareReason
		}
	}
}
