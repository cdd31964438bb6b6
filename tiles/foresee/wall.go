package foresee

import (
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// Wall is what a wall's fired tiles teach about those that are not.
type Wall struct {
	*Foresight
	Codes  []string       // n: the glazes, by their places
	Tiles  []tiles.Number // m: the tile of each fired pair
	Loads  []int          // m: the load it was fired in; 0 = not said
	places map[string]int // by the code's key
	fired  map[Cell]bool  // every pair with a color, whether learnt from or not
}

// OfWall learns from a wall. A glaze whose color alone is not known, by its
// single, its double or the zones of its pairs, has no place; a pair's color is
// that of its own tile. Beyond mostFired pairs it learns from as many, evenly
// taken.
func OfWall(w tiles.Wall) *Wall {
	f := &Wall{places: map[string]int{}, fired: map[Cell]bool{}}
	fired := firedTiles(w)
	var s Studio
	singles := singlesOf(fired)
	for _, g := range w.Glazes {
		if c, ok := singles[tiles.CodeKey(g.Code)]; ok {
			f.places[tiles.CodeKey(g.Code)] = len(f.Codes)
			f.Codes, s.Singles = append(f.Codes, g.Code), append(s.Singles, c)
		}
	}
	for _, t := range thinned(f.once(fired), mostFired) {
		c, _ := f.Cell(t.Pair)
		s.Pairs = append(s.Pairs, Pair{First: c.First, Second: c.Second, Lab: t.color})
		f.Tiles, f.Loads = append(f.Tiles, t.Number), append(f.Loads, t.Load)
	}
	f.Foresight = Learn(s)
	return f
}

// once is the fired pairs whose glazes have a place, each pair's first tile.
func (f *Wall) once(fired []firedTile) []firedTile {
	var pairs []firedTile
	for _, t := range fired {
		if c, ok := f.Cell(t.Pair); ok && !f.fired[c] {
			f.fired[c] = true
			pairs = append(pairs, t)
		}
	}
	return pairs
}

// mostFired bounds what is learnt from: time grows with its cube.
const mostFired = 1500

// Place is a glaze's place; false where nothing shows it alone.
func (f *Wall) Place(code string) (int, bool) {
	at, ok := f.places[tiles.CodeKey(code)]
	return at, ok
}

// Cell is a pair's place; false where one of its glazes has none, and of a
// single or double.
func (f *Wall) Cell(p tiles.Pair) (Cell, bool) {
	i, first := f.Place(p.First)
	j, second := f.Place(p.Second)
	return Cell{i, j}, first && second && i != j
}

// Fired says whether a cell's color is known from a tile.
func (f *Wall) Fired(c Cell) bool { return f.fired[c] }

// Pair is a cell as a pair of codes.
func (f *Wall) Pair(c Cell) tiles.Pair {
	return tiles.Pair{First: f.Codes[c.First], Second: f.Codes[c.Second]}
}

// Record is how guesses would have done so far, load by load.
func (f *Wall) Record() []Kept {
	loads := slices.Compact(slices.Sorted(slices.Values(f.Loads)))
	stages := make([][]Pair, len(loads))
	for k, p := range f.Pairs {
		at, _ := slices.BinarySearch(loads, f.Loads[k])
		stages[at] = append(stages[at], p)
	}
	return Record(f.Singles, stages)
}

// firedTile is a tile of the wall's own with a color.
type firedTile struct {
	tiles.Tile
	color color.Lab
	zones []tiles.Reading
}

// firedTiles is the wall's own tiles that have a reading, those in use before
// those that are broken.
func firedTiles(w tiles.Wall) []firedTile {
	readings := tiles.ByTile(w.Readings)
	var inUse, broken []firedTile
	for _, t := range w.Tiles {
		r, ok := colorOf(readings[t.Number], t)
		if !ok || !t.Own() {
			continue
		}
		fired := firedTile{Tile: t, color: labOf(r), zones: readings[t.Number]}
		if t.Status == tiles.Retired {
			broken = append(broken, fired)
		} else {
			inUse = append(inUse, fired)
		}
	}
	return append(inUse, broken...)
}

// colorOf is a tile's color; the zone of one coat does not stand for a pair.
func colorOf(rs []tiles.Reading, t tiles.Tile) (tiles.Reading, bool) {
	r, ok := tiles.ColorOf(rs, t.Number)
	return r, ok && (t.Single() || r.Zone != tiles.ZoneFirst)
}

func labOf(r tiles.Reading) color.Lab { return color.Lab{L: r.L, A: r.A, B: r.B} }

// singlesOf is each glaze's color alone: its single's; else its double's; else
// the mean of the zones where it lies alone on the clay.
func singlesOf(fired []firedTile) map[string]color.Lab {
	single, double, zones := map[string]color.Lab{}, map[string]color.Lab{}, map[string][]color.XYZ{}
	for _, t := range fired {
		first := tiles.CodeKey(t.First)
		switch {
		case t.Single():
			keepFirst(single, first, t.color)
		case t.Double():
			keepFirst(double, first, t.color)
		default:
			addZone(zones, t, tiles.ZoneFirst, first)
			addZone(zones, t, tiles.ZoneSecond, tiles.CodeKey(t.Second))
		}
	}
	for code, of := range zones {
		keepFirst(double, code, color.Mean(of).Lab())
	}
	for code, c := range double {
		keepFirst(single, code, c)
	}
	return single
}

func keepFirst(m map[string]color.Lab, code string, c color.Lab) {
	if _, ok := m[code]; !ok {
		m[code] = c
	}
}

func addZone(zones map[string][]color.XYZ, t firedTile, z tiles.Zone, code string) {
	if r, ok := tiles.Choose(t.zones, t.Number, z); ok {
		zones[code] = append(zones[code], labOf(r).XYZ())
	}
}
