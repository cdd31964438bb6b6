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

// areas are the zones to read on a tile. A single, and a tile whose second coat
// covers the first, are one area, the whole; of a tile of which only the middle
// is known only the middle zone is read.
func areas(s tiles.Shape, p tiles.Pair, middleOnly bool) []area {
	foot := 0.0
	if s.Height > 0 {
		foot = min(0.5, max(0, s.Bare/s.Height))
	}
	glazed := 1 - foot
	whole := area{tiles.ZoneWhole, inset, inset * glazed, 1 - inset, glazed * (1 - inset)}
	zones, err := s.Zones()
	if p.Single() || err != nil || zones.First+zones.Second == 0 {
		if middleOnly {
			whole.u0, whole.v0, whole.u1, whole.v1 = 0, 0, 1, 1
		}
		return []area{whole}
	}
	if middleOnly {
		return []area{{tiles.ZoneOverlap, 0, 0, 1, 1}}
	}
	return split(s, zones, whole)
}

// split cuts the face where the dips end: first at the bottom, or at the left.
func split(s tiles.Shape, z tiles.Zones, whole area) []area {
	total := z.First + z.Overlap + z.Second
	edges := [4]float64{0, z.First / total, (z.First + z.Overlap) / total, 1}
	var out []area
	for i, zone := range []tiles.Zone{tiles.ZoneFirst, tiles.ZoneOverlap, tiles.ZoneSecond} {
		from, to := edges[i], edges[i+1]
		if to-from < 0.02 {
			continue
		}
		margin := insetDip * (to - from)
		from, to = max(inset, from+margin), min(1-inset, to-margin)
		if from >= to {
			continue
		}
		a := whole
		a.zone = zone
		if s.Layout == tiles.LayoutSides {
			a.u0, a.u1 = from, to
		} else {
			glazed := whole.v1 / (1 - inset)
			a.v0, a.v1 = glazed*(1-to), glazed*(1-from)
		}
		out = append(out, a)
	}
	return out
}
