package mark

import (
	"slices"

	"github.com/twodip/twodip/tiles/target"
)

// leastAgain is how well a mark must match where it is looked for again.
const leastAgain = 0.6

// again looks for the marks that were not found at first, too small, too soft
// or too glaring to be read on their own, where the others say that they should
// be, and fits the view to all of them. Of such a mark only the middle is used.
func (p Plane) again(v View, found []Found, marks []target.Mark, l lens) (View, []Found) {
	before := len(found)
	for _, m := range marks {
		missed := !slices.ContainsFunc(found, func(f Found) bool { return f.ID == m.ID })
		if missed && v.ahead(m.X, m.Y) {
			if f, ok := p.mark(&v, m); ok {
				found = append(found, f)
			}
		}
	}
	if len(found) == before {
		return v, found
	}
	if better, err := v.fit(anchorsOf(among(found, marks)), l, false); err == nil {
		v = better
	}
	return v, found
}

// mark looks for one mark about its place.
func (p Plane) mark(v *View, m target.Mark) (Found, bool) {
	pa := p.straighten(v, m)
	if !pa.inside {
		return Found{}, false
	}
	s := drawCode(m.Bits).blurred(2).stencil(0)
	x, y, match := pa.best(s, perCell*cellsAround, perCell*cellsAround, perCell*cellsAround, 2)
	if match < leastAgain {
		return Found{}, false
	}
	dx, dy := pa.place(s, x, y)
	seen := v.See(m.X+m.W/2+dx, m.Y+m.H/2+dy, 0)
	return Found{ID: m.ID, Quad: v.quad(m.Rect, 0), Paper: pa.white(x, y), sure: match, again: &seen}, true
}
