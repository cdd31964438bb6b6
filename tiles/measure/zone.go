package measure

import "github.com/twodip/twodip/tiles"

// inset is what is left out along each side of a tile, as a share of the side:
// edges are where a glaze thins and a camera blurs.
const inset = 0.08

// insetDip is what is left out on either side of where a dip ends, as a share
// of the zone: nobody dips along a ruler.
const insetDip = 0.15

// area is a zone's place on an upright face: 0–1 across and down.
type area struct {
	zone           tiles.Zone
	u0, v0, u1, v1 float64
}

// areas are the zones to read on a tile, where its coats were dipped
// (tiles.Shape.Areas). A single, and a tile whose second coat covers the first,
// are one area, the whole; of a tile of which only the middle is known only the
// middle zone is read.
func areas(s tiles.Shape, p tiles.Pair, middleOnly bool) []area {
	if s.Width <= 0 || s.Height <= 0 {
		s = tiles.Shape{Width: 1, Height: 1}
	}
	on := s.Areas(p)
	if middleOnly {
		zone := tiles.ZoneOverlap
		if on[0].Zone == tiles.ZoneWhole {
			zone = tiles.ZoneWhole
		}
		return []area{{zone, 0, 0, 1, 1}}
	}
	var out []area
	for _, a := range on {
		if in, ok := within(s, a, len(on) > 1); ok {
			out = append(out, in)
		}
	}
	return out
}

// within is what is read of a zone: clear of the tile's edges and of where a
// dip ends; ok is false where nothing is left.
func within(s tiles.Shape, on tiles.Area, parted bool) (a area, ok bool) {
	glazed := (s.Height - s.Bare) / s.Height
	a = area{on.Zone, inset, inset * glazed, 1 - inset, glazed * (1 - inset)}
	switch {
	case !parted:
		return a, true
	case s.Layout == tiles.LayoutSides:
		a.u0, a.u1, ok = trimmed(on.X/s.Width, (on.X+on.W)/s.Width)
	default:
		a.v0, a.v1, ok = trimmed(on.Y/s.Height/glazed, (on.Y+on.H)/s.Height/glazed)
		a.v0, a.v1 = a.v0*glazed, a.v1*glazed
	}
	return a, ok
}

// trimmed is what of a zone, as shares of the glazed length, is neither edge nor
// where a dip ends.
func trimmed(from, to float64) (lo, hi float64, ok bool) {
	if to-from < 0.02 {
		return 0, 0, false
	}
	margin := insetDip * (to - from)
	lo, hi = max(inset, from+margin), min(1-inset, to-margin)
	return lo, hi, lo < hi
}
