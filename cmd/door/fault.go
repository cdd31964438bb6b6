package door

import (
	"slices"

	"github.com/twodip/twodip/themes"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/logbook"
)

// faultWord is a fault by its picture, its word and what it looks like.
type faultWord struct{ Picture, Name, Sign string }

// faultWords are the faults to choose from. Their pictures, one a word, are
// drawn in faults.html of the theme.
func faultWords() []faultWord {
	var out []faultWord
	for _, word := range logbook.Words {
		out = append(out, faultWord{themes.FaultPicture(word.Name), word.Name, word.Sign})
	}
	return out
}

// zoneChoice is a band of the drawing of a piece.
type zoneChoice struct {
	ID, Value, Text string
	Class           string // where it stands in the drawing
	Lines           string // what its band is hatched with, as SVG's path data
}

// hatch marks where both coats lie, as the drawing of the order does.
const hatch = "M0 9L9 0M0 21L21 0M0 33L33 0M9 36L45 0M21 36L57 0M33 36L60 9M45 36L60 21M57 36L60 33"

// zoneChoices are the bands of a piece from the rim down, the 2nd coat over the
// 1st as everywhere, and all of it.
func zoneChoices(p tiles.Pair, w tiles.Wall) []zoneChoice {
	named := func(which, code string) string {
		if g, ok := tiles.FindGlaze(w.Glazes, code); ok {
			return which + " alone: " + g.Name
		}
		return which + " alone"
	}
	all := zoneChoice{ID: "z4", Value: string(tiles.ZoneWhole), Text: "all over", Class: "all"}
	if p.Second == "" {
		return []zoneChoice{{ID: "z1", Value: string(tiles.ZoneFirst), Text: named("1st", p.First), Class: "top low"}, all}
	}
	return []zoneChoice{
		{ID: "z3", Value: string(tiles.ZoneSecond), Text: named("2nd", p.Second), Class: "top"},
		{ID: "z2", Value: string(tiles.ZoneOverlap), Text: "both", Lines: hatch},
		{ID: "z1", Value: string(tiles.ZoneFirst), Text: named("1st", p.First), Class: "low"},
		all,
	}
}

func isZone(word string) bool {
	return slices.Contains([]tiles.Zone{tiles.ZoneFirst, tiles.ZoneOverlap, tiles.ZoneSecond, tiles.ZoneWhole}, tiles.Zone(word))
}
