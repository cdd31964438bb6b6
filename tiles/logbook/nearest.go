package logbook

import (
	"github.com/agnivade/levenshtein"

	"github.com/twodip/twodip/tiles"
)

// Nearest finds the known word a typo most likely meant: at most a third of
// its letters away, two at most, and no other word as near.
func Nearest(typed string, known []string) (string, bool) {
	typed = tiles.Fold(typed)
	limit := min(2, len([]rune(typed))/3)
	best, ties, at := "", 0, limit+1
	for _, k := range known {
		switch d := slips(typed, tiles.Fold(k)); {
		case d < at:
			best, ties, at = k, 0, d
		case d == at:
			ties++
		}
	}
	return best, best != "" && ties == 0
}

// slips is how many letters were typed wrong; two that changed places are one
// slip (Damerau 1964), where the library counts two.
func slips(typed, meant string) int {
	a, b := []rune(typed), []rune(meant)
	for i := 0; len(a) == len(b) && i+1 < len(a); i++ {
		if a[i] != b[i] {
			if a[i] == b[i+1] && a[i+1] == b[i] && string(a[i+2:]) == string(b[i+2:]) {
				return 1
			}
			break
		}
	}
	return levenshtein.ComputeDistance(typed, meant)
}
