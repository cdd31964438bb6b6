package sheet

import "strings"

// coneEnd is where a large regular cone has bent to six o'clock, °C, when the
// last 100 °C rise by 60 or by 150 °C an hour: the large-cone table as
// published by the makers of cones. Other editions and other cones differ by
// up to 15 °C, so a sheet says which table it prints.
type coneEnd struct {
	cone       string
	slow, fast int
}

var coneEnds = []coneEnd{
	{"04", 1060, 1070}, {"03", 1086, 1101}, {"02", 1101, 1120}, {"01", 1117, 1137},
	{"1", 1136, 1154}, {"2", 1142, 1162}, {"3", 1152, 1168}, {"4", 1160, 1181}, {"5", 1184, 1205},
	{"6", 1220, 1241}, {"7", 1237, 1255}, {"8", 1247, 1269}, {"9", 1257, 1278}, {"10", 1282, 1303},
}

// coneSet is the guide, the firing and the guard cone of a firing: the firing
// cone and its neighbors; ok is false for a cone the table has not got.
func coneSet(cone string) (set [3]coneEnd, ok bool) {
	cone = strings.TrimSpace(strings.TrimPrefix(strings.ToLower(cone), "cone"))
	for i, c := range coneEnds {
		if c.cone == cone && i > 0 && i < len(coneEnds)-1 {
			return [3]coneEnd{coneEnds[i-1], c, coneEnds[i+1]}, true
		}
	}
	return set, false
}

// fahrenheit converts a temperature; a rate would be times 1.8 alone.
func fahrenheit(celsius int) int { return int(float64(celsius)*1.8 + 32 + 0.5) }
