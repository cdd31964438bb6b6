package plan

import "github.com/twodip/twodip/tiles"

// Load is one firing of the kiln as planned.
type Load struct {
	Number  int     // 1 and up
	Shelves []Shelf // from the bottom of the kiln up
	Fired   bool    // every tile in it has been fired
}

// Shelf is one kiln shelf in a load and what stands on it.
type Shelf struct {
	tiles.Shelf         // name, shape, width and depth in mm
	Level       int     // 1 = the lowest
	Clear       float64 // mm of post needed above it: the tallest tile and its headroom, as posts are sold
	Posts       []Post  // where posts stand on it
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
