package plan

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
)

// Kept is a place on a shelf that no tile takes.
type Kept struct {
	For          string  // "cones" or "thermocouple"
	X, Y         float64 // mm from the shelf's left and front edge to its centre
	Width, Depth float64 // mm
}

// coneDepth is how deep a set of three cones in its holder stands, mm (common
// practice, no source).
const coneDepth = 25

// keptOn are the places a shelf keeps free: in front, in the middle, for the
// cones that the firing record asks for on every shelf, where the spyhole sees
// them; and at the right edge for the thermocouple.
func keptOn(s tiles.Settings, shelf tiles.Shelf) []Kept {
	var kept []Kept
	depth := depthOf(shelf)
	if wide := s.Kiln.Cones; wide > 0 && wide < shelf.Width/2 && coneDepth < depth/3 {
		k := Kept{For: "cones", X: shelf.Width / 2, Y: coneDepth / 2.0, Width: wide, Depth: coneDepth}
		for k.Y < depth/2 && !around(k.X, k.Y, k.Width, k.Depth).on(shelf) {
			k.Y++
		}
		kept = append(kept, k)
	}
	if side := s.Kiln.Thermocouple; side > 0 && side < shelf.Width/3 && side < depth/3 {
		k := Kept{For: "thermocouple", X: shelf.Width - side/2, Y: depth / 2, Width: side, Depth: side}
		if shelf.Shape == "half-round" {
			k.Y = depth / 4
		}
		for k.X > shelf.Width/2 && !around(k.X, k.Y, k.Width, k.Depth).on(shelf) {
			k.X--
		}
		kept = append(kept, k)
	}
	return kept
}

// coneSet names the cones of a set: the firing cone between the ones next to it
// on the large-cone scale; "" where the wall's cone is not on it.
func coneSet(cone string) string {
	for i := 1; i+1 < len(coneScale); i++ {
		if coneScale[i] == cone {
			return fmt.Sprintf("cones %s, %s, %s", coneScale[i-1], cone, coneScale[i+1])
		}
	}
	return ""
}

// ConeSet names the cones to set on every shelf: guide, firing and guard cone
// (common practice, found written).
func ConeSet(s tiles.Settings) string {
	if set := coneSet(s.Cone); set != "" {
		return set
	}
	return "cones"
}

// coneScale is the large cones in order of heat work, as potters number them.
var coneScale = []string{"08", "07", "06", "05", "04", "03", "02", "01", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12"}
