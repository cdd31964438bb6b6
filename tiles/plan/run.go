package plan

import "github.com/twodip/twodip/tiles"

// Dips is the dipping of one load: all first coats, then all second coats, so
// that each bucket is opened once a run.
type Dips struct {
	Load   int
	First  Run
	Second Run     // no steps where the load has only singles
	Dry    float64 // minutes a first coat dries before its second
	Total  Effort  // both runs, as planned here
	Single Effort  // the same dips made tile by tile, for comparison
}

// Run is one pass along the buckets.
type Run struct {
	Coat    int     // 1 or 2
	Steps   []Step  // in the order the buckets are opened: light to dark, strong colorants last
	Wait    float64 // minutes to wait before the run starts, so that first coats are dry
	Minutes float64 // of work, Wait not counted
}

// Step is one bucket opened once and what is dipped in it.
type Step struct {
	Glaze   tiles.Glaze
	Cup     bool           // dip from a cup decanted from the bucket; throw the rest of the cup away
	Parts   [][]tiles.Tile // the tiles in order of dipping, one part between two stirrings
	Minutes float64
	Notes   []string // what to mind at this bucket, one short sentence each
}

// Tiles is every tile of the step, in order of dipping.
func (s Step) Tiles() []tiles.Tile {
	var all []tiles.Tile
	for _, part := range s.Parts {
		all = append(all, part...)
	}
	return all
}

// Effort is what a way of working costs.
type Effort struct {
	Minutes  float64
	Openings int // times a bucket is opened, stirred and closed
	Dips     int
}
