package content

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
)

// Figures of common practice in a mid-range studio, in mm and minutes.
const (
	leastBare     = 6   // found written
	mostRaw       = 1.2 // both coats together; thicker stacks crack and fall off
	leastDrying   = 2
	leastTray     = 10
	narrowestZone = 15 // a lane or band narrower than this is mostly edge: no source
)

// Unwise says what the settings ask for that works against the wall, one
// sentence an item: nothing here stops anything, and the studio may know
// better. The grounds are common practice, most of it found written.
func Unwise(s tiles.Settings) []string {
	var out []string
	add := func(format string, args ...any) {
		out = append(out, SettingsFile+": "+fmt.Sprintf(format, args...))
	}
	t := s.Tile
	switch ends := t.Layout == tiles.LayoutEnds; {
	case ends && t.Foot > t.Thickness:
		add("tile: layout is ends and foot is %g: a tile cannot be dipped from the end its foot is on; write layout: sides, or foot: 0 for a flat tile", t.Foot)
	case ends && s.Kiln.Upright:
		add("tile: layout is ends and kiln: upright is true: what runs from the overlap runs over the first glaze below it; write layout: sides, or upright: false")
	}
	if s.Kiln.Upright && t.Foot == 0 {
		add("kiln: upright is true and tile: foot is 0: a tile that stands needs a foot or a stand; write its depth as foot, or upright: false")
	}
	if z, err := t.Zones(); err == nil && t.Layout != tiles.LayoutWhole && min(z.First, z.Overlap, z.Second) < narrowestZone {
		add("tile: the zones are %.3g, %.3g and %.3g mm: below %d mm a zone is mostly edge, and its color is hard to read", z.First, z.Overlap, z.Second, narrowestZone)
	}
	if t.Bare < leastBare {
		add("tile: bare is %g: below %d mm a tile may fuse to its shelf", t.Bare, leastBare)
	}
	if raw := s.Dip.Thickness * float64(s.Dip.Coats); raw > mostRaw {
		add("dip: thickness is %g: %d coats are %.2g mm, and above %g mm they crack and fall off", s.Dip.Thickness, s.Dip.Coats, raw, mostRaw)
	}
	if s.Dip.Coats > 1 && s.Dip.Dry < leastDrying {
		add("dip: dry is %g: a first coat needs %d minutes or more until its sheen is gone", s.Dip.Dry, leastDrying)
	}
	if s.Kiln.Tray < leastTray {
		add("kiln: tray is %g: a waste slab should stick out %d mm all round", s.Kiln.Tray, leastTray)
	}
	return out
}
