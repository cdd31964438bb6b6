package tiles

import "golang.org/x/text/unicode/norm"

// ByHand is what a person has set for a photo, respected for ever: whose tile
// it is, where the tile's face lies in it, or both; or where the grey card, or
// the patches of the chart, lie in it.
type ByHand struct {
	Photo   string        // file name below tiles/photos, with forward slashes
	Tile    Number        // 0 = as found
	Outline [4][2]float64 // pixels of the upright photo, from the tile's own top left clockwise
	Drawn   bool          // Outline is given; otherwise it is as found
	Card    bool          // Outline is not of a tile but of the card to correct color by
	Line    int           // line of the file
}

// SamePhoto says that two names are of one photo: letter for letter, whether
// accents are written with their letter (NFC) or after it (NFD), as some drives
// turn the one into the other unseen.
func SamePhoto(a, b string) bool { return a == b || Composed(a) == Composed(b) }

// Composed is a name with its accents written with their letters (NFC).
func Composed(name string) string { return norm.NFC.String(name) }
