package tiles

// ByHand is what a person has set for a photo, respected for ever: whose tile
// it is, where the tile's face lies in it, or both.
type ByHand struct {
	Photo   string        // file name below tiles/photos, with forward slashes
	Tile    Number        // 0 = as found
	Outline [4][2]float64 // pixels of the upright photo, from the tile's own top left clockwise
	Drawn   bool          // Outline is given; otherwise it is as found
	Line    int           // line of the file
}
