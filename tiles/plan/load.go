package plan

import (
	"maps"
	"slices"

	"github.com/twodip/twodip/tiles"
)

// Load is one firing of the kiln as planned.
type Load struct {
	Number  int     // 1 and up
	Shelves []Shelf // from the bottom of the kiln up
	Fired   bool    // it has been in the kiln: one of its tiles is fired
}

// Shelf is one kiln shelf in a load and what stands on it.
type Shelf struct {
	tiles.Shelf         // name, shape, width and depth in mm
	Level       int     // 1 = the lowest
	Clear       float64 // mm of post needed above it: the tallest tile and its headroom, as posts are sold
	Posts       []Post  // where posts stand on it
	Kept        []Kept  // what no tile takes
	Places      []Placement
}

// Post is a kiln post on a shelf.
type Post struct {
	X, Y float64 // mm from the shelf's left and front edge to its centre
	Side float64 // mm, square
}

// Placement is one tile on a shelf, seen from above.
type Placement struct {
	Tile         tiles.Tile
	X, Y         float64 // mm from the shelf's left and front edge to the tile's centre
	Width, Depth float64 // mm the tile itself covers, along x and y
	Slab         float64 // mm a waste slab sticks out all round; 0 = no slab
	Control      bool    // a repeat fired on every shelf of every load
}

// Loads reads the planned and fired loads back from the wall's rows, by number.
// A shelf that is no longer in the settings keeps its tiles without a size.
func Loads(w tiles.Wall) []Load {
	byNumber := map[int][]tiles.Tile{}
	for _, t := range w.Tiles {
		if t.Load > 0 && inUse(t) {
			byNumber[t.Load] = append(byNumber[t.Load], t)
		}
	}
	var loads []Load
	for _, n := range slices.Sorted(maps.Keys(byNumber)) {
		loads = append(loads, loadOf(w, n, byNumber[n]))
	}
	return loads
}

func loadOf(w tiles.Wall, n int, ts []tiles.Tile) Load {
	l := Load{Number: n}
	shelves := kilnShelves(w.Settings)
	for _, t := range ts {
		l.Fired = l.Fired || t.Status == tiles.Fired
		if !slices.ContainsFunc(shelves, func(s tiles.Shelf) bool { return s.Name == t.Shelf }) {
			shelves = append(shelves, tiles.Shelf{Name: t.Shelf})
		}
	}
	for i, shelf := range shelves {
		s := Shelf{Shelf: shelf, Level: i + 1, Clear: clearance(w.Settings)}
		s.Depth = depthOf(shelf)
		if i < len(shelves)-1 {
			s.Posts = posts(shelf, w.Kiln.Post)
		}
		if shelf.Width > 0 {
			s.Kept = keptOn(w.Settings, shelf)
		}
		for _, t := range ts {
			if t.Shelf == shelf.Name {
				s.Places = append(s.Places, placementOf(w, t))
			}
		}
		l.Shelves = append(l.Shelves, s)
	}
	return l
}

func placementOf(w tiles.Wall, t tiles.Tile) Placement {
	f := footprintOf(w.Settings, runs(w.Glazes, t.Pair))
	return Placement{Tile: t, X: t.X, Y: t.Y, Width: f.width, Depth: f.depth, Slab: f.slab, Control: w.Kiln.IsControl(t)}
}

// inKiln says which loads have been in the kiln.
func inKiln(ts []tiles.Tile) map[int]bool {
	fired := map[int]bool{}
	for _, t := range ts {
		if t.Load > 0 && t.Status == tiles.Fired {
			fired[t.Load] = true
		}
	}
	return fired
}

// Tiles is every tile of the load, shelf by shelf from the bottom up.
func (l Load) Tiles() []tiles.Tile {
	var ts []tiles.Tile
	for _, s := range l.Shelves {
		for _, p := range s.Places {
			ts = append(ts, p.Tile)
		}
	}
	return ts
}
