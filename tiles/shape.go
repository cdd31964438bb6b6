package tiles

import "fmt"

// Zones is how long each part of a tile dipped from two ends or two sides is,
// in mm of fired tile, from the first dip's end to the second's.
type Zones struct {
	First, Overlap, Second float64
}

// Glazed is the length the two dips share, in mm: the height above the bare
// foot, or the width where the tile is dipped from its sides.
func (s Shape) Glazed() float64 {
	if s.Layout == LayoutSides {
		return s.Width
	}
	return s.Height - s.Bare
}

// Zones says where the two dips meet. With a glazed length G and dips d1 and
// d2 from opposite ends, first only = G − d2, overlap = d1 + d2 − G and second
// only = G − d1 (derived; equal thirds when both dips are 2G/3). Dips that do
// not meet, or that are deeper than the tile, are an error. A tile whose
// second coat covers the first is all overlap.
func (s Shape) Zones() (Zones, error) {
	g := s.Glazed()
	if s.Layout != LayoutEnds && s.Layout != LayoutSides {
		return Zones{Overlap: g}, nil
	}
	z := Zones{First: g - s.SecondDip, Overlap: s.FirstDip + s.SecondDip - g, Second: g - s.FirstDip}
	switch {
	case z.Overlap <= 0:
		return Zones{}, fmt.Errorf("the dips of %g and %g mm do not meet on %g mm of glazed tile", s.FirstDip, s.SecondDip, g)
	case z.First < 0 || z.Second < 0:
		return Zones{}, fmt.Errorf("a dip of %g mm is deeper than the %g mm of glazed tile", max(s.FirstDip, s.SecondDip), g)
	}
	return z, nil
}
