package tiles

// Edge is an edge of a tile's face, as one looks at its front with the foot
// down.
type Edge string

// The edges that may go into the glaze first.
const (
	EdgeTop    Edge = "top"
	EdgeBottom Edge = "bottom"
	EdgeLeft   Edge = "left"
	EdgeRight  Edge = "right"
)

// Rect is a part of a tile's face, in mm of the fired tile from its upper left
// corner, seen from the front.
type Rect struct{ X, Y, W, H float64 }

// Coat is one dip of a tile.
type Coat struct {
	In    Edge    // goes in first
	Depth float64 // how far that edge goes in, mm, the bare strip counted where it goes in too
	Bare  bool    // some of the bare strip goes in: it is waxed before, or wiped after
	On    Rect    // what of the face the coat stays on
}

// Area is a zone and its place on the face.
type Area struct {
	Zone Zone
	Rect
}

// Coats says how each coat of a pair is dipped, the first before the second.
// It is the one geometry that sheets, labels, drawings, the plan's sums and
// the zones of a reading go by.
//
// A single is dipped whole whatever the layout, top in first down to the bare
// strip: one coat needs no lane beside another, and the hand holds it where it
// stays bare. A coat that covers the other one is dipped the same way.
func (s Shape) Coats(p Pair) []Coat {
	glazed := s.Height - s.Bare
	whole := Coat{In: EdgeTop, Depth: glazed, On: Rect{0, 0, s.Width, glazed}}
	switch {
	case p.Single():
		return []Coat{whole}
	case !s.parted():
		return []Coat{whole, whole}
	case s.Layout == LayoutSides:
		return []Coat{
			{EdgeLeft, s.FirstDip, s.Bare > 0, Rect{0, 0, s.FirstDip, glazed}},
			{EdgeRight, s.SecondDip, s.Bare > 0, Rect{s.Width - s.SecondDip, 0, s.SecondDip, glazed}},
		}
	}
	return []Coat{
		{EdgeBottom, s.Bare + s.FirstDip, s.Bare > 0, Rect{0, glazed - s.FirstDip, s.Width, s.FirstDip}},
		{EdgeTop, s.SecondDip, false, Rect{0, 0, s.Width, s.SecondDip}},
	}
}

// Areas says where the zones of a pair lie on the face, from the first dip's
// end to the second's. A zone that the dips leave no room for is left out; a
// tile of one area, a single or a second that covers its first, has the whole
// of what is glazed.
func (s Shape) Areas(p Pair) []Area {
	coats := s.Coats(p)
	if p.Single() || !s.parted() {
		return []Area{{ZoneWhole, coats[0].On}}
	}
	first, second := coats[0].On, coats[1].On
	var areas []Area
	add := func(z Zone, x, y, w, h float64) {
		if w > 0 && h > 0 {
			areas = append(areas, Area{z, Rect{x, y, w, h}})
		}
	}
	if s.Layout == LayoutSides {
		add(ZoneFirst, 0, 0, second.X, first.H)
		add(ZoneOverlap, second.X, 0, first.W-second.X, first.H)
		add(ZoneSecond, first.W, 0, s.Width-first.W, first.H)
		return areas
	}
	add(ZoneFirst, 0, second.H, s.Width, first.Y+first.H-second.H)
	add(ZoneOverlap, 0, first.Y, s.Width, second.H-first.Y)
	add(ZoneSecond, 0, 0, s.Width, first.Y)
	return areas
}

// parted says that two coats leave zones beside the overlap.
func (s Shape) parted() bool {
	z, err := s.Zones()
	return err == nil && z.First+z.Second > 0
}

// HoleAt is the middle of the hole a tile hangs by, mm from the face's left and
// upper edge. It lies high, where any coat is thinnest and no zone is read.
func (s Shape) HoleAt() (x, y float64) { return s.Width / 2, s.Hole/2 + max(5, 0.06*s.Height) }

// TextureOn is where the textured strip lies on the face: across all the zones,
// so that each glaze breaks over it, alone and with the other. It is low on a
// tile of lanes and toward the right on one of bands; no room, no strip.
func (s Shape) TextureOn() Rect {
	glazed := s.Height - s.Bare
	if s.Layout == LayoutSides {
		return Rect{0, min(0.72*glazed, glazed-s.Texture/2) - s.Texture/2, s.Width, s.Texture}
	}
	return Rect{min(0.8*s.Width, s.Width-s.Texture/2) - s.Texture/2, 0, s.Texture, glazed}
}
