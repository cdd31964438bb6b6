package measure

import "github.com/twodip/twodip/tiles/geometry"

// bin is the index that a value has among n, the first and the last taking in
// what lies beyond. What is no number (light of a broken profile, a place in a
// degenerate view) goes to the first, so that it never leads out of a slice.
func bin(v float64, n int) int {
	if !(v > 0) {
		return 0
	}
	return int(min(v, float64(n-1)))
}

// inUnitSquare says that a place is in the square from (0, 0) to (1, 1); one
// that is no number is not.
func inUnitSquare(p geometry.Point) bool { return p.X >= 0 && p.Y >= 0 && p.X < 1 && p.Y < 1 }
