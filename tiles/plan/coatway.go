package plan

import "github.com/twodip/twodip/tiles"

// CoatWay says how a coat is dipped, so that it lies where the drawing and the
// reading have it: which edge goes in first, how far from that edge, and what
// is to be done about the foot that stays bare.
func CoatWay(s tiles.Settings, c tiles.Coat) string {
	deep := s.Units.Length(c.Depth) + " deep"
	bare := s.Units.Length(s.Tile.Bare)
	switch c.In {
	case tiles.EdgeLeft, tiles.EdgeRight:
		say := "the " + string(c.In) + " side (as you look at the front) in first, " + deep
		if c.Bare {
			say += "; wax the lowest " + bare + " before, or wipe it after"
		}
		return say
	case tiles.EdgeBottom:
		say := "the bottom in first, " + deep
		if c.Bare {
			say += " from the bottom edge, the bare " + bare + " counted; wax them before, or wipe them after"
		}
		return say
	}
	say := "the top in first, " + deep
	if s.Tile.Bare > 0 && c.Depth >= s.Tile.Height-s.Tile.Bare {
		say += ", so that the lowest " + bare + " stay bare"
	}
	return say
}
