package logbook

import (
	"github.com/agnivade/levenshtein"

	"github.com/twodip/twodip/tiles"
)

// nearest finds the known word a typo most likely meant: at most a third of
// its letters away, two at most, and no other word as near.
func nearest(typed string, known []string) (string, bool) {
	typed = tiles.Fold(typed)
	limit := min(2, len([]rune(typed))/3)
	best, ties, at := "", 0, limit+1
	for _, k := range known {
		switch d := levenshtein.ComputeDistance(typed, tiles.Fold(k)); {
		case d < at:
			best, ties, at = k, 0, d
		case d == at:
			ties++
		}
	}
	return best, best != "" && ties == 0
}
