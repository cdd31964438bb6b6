package mark

import (
	"math"

	"github.com/twodip/twodip/tiles/target"

	"github.com/twodip/twodip/tiles/geometry"
)

// Mat is a photo of the mat, understood.
type Mat struct {
	View  View
	Marks []Found
	Lying
	Beside         *Lying // the second tile of a mat for two; nil = the mat is for one
	ReferencePlace geometry.Quad
	Paper          []geometry.Quad // paper left blank

	page target.Page
}

// Lying is a tile on the mat.
type Lying struct {
	Tile    geometry.Quad // outline of the tile's face, from its own top left clockwise
	Settled bool          // the tile's own edges were seen; otherwise Tile is where its outline is printed
	label   target.Rect
}

// Tiles are the one or two tiles on the mat, from its left.
func (m *Mat) Tiles() []*Lying {
	if m.Beside == nil {
		return []*Lying{&m.Lying}
	}
	return []*Lying{&m.Lying, m.Beside}
}

// leastMat is how many of the mat's four marks it takes: from two on, the far
// side would be a guess.
const leastMat = 3

// OnMat finds the mat in a photo. thick is the tile's height over the page,
// mm. Its edges are looked for in the tint, too, where a photo's differences of
// color (Cb, Cr) are given. Fewer than three marks are a Few.
func OnMat(p Plane, found []Found, page target.Page, thick float64, l Lens35, tint ...Plane) (Mat, error) {
	mine, drawn := among(found, page.Marks[:])
	few := Few{What: "mat", Seen: len(mine), Want: leastMat, Of: len(page.Marks)}
	if len(mine) < leastMat-1 {
		return Mat{}, few
	}
	lens := l.lens(p.W, p.H)
	v, mine, err := solve(mine, drawn, p.W, p.H, lens)
	if err != nil {
		return Mat{}, err
	}
	if v, mine = p.again(v, mine, page.Marks[:], lens); len(mine) < leastMat {
		return Mat{}, few
	}
	for i := range mine {
		mine[i].Quad = v.quad(byID(page.Marks[:], mine[i].ID).Rect, 0)
	}
	m := Mat{View: v, Marks: mine, ReferencePlace: v.quad(page.Reference, 0), page: page}
	in := lookAt(p, tint)
	m.Lying = in.lying(&v, page.Spot, thick)
	if page.Beside != nil {
		beside := in.lying(&v, *page.Beside, thick)
		m.Beside = &beside
	}
	for _, r := range page.Paper {
		m.Paper = append(m.Paper, v.quad(r, 0))
	}
	return m, nil
}

// lying finds the tile that lies on a spot.
func (l layers) lying(v *View, on target.Spot, thick float64) Lying {
	out := Lying{Tile: v.quad(on.Tile, thick), label: on.Label}
	if laid, ok := l.settle(v, on.Tile, thick); ok {
		out.Settled = true
		for i, c := range laid.corners() {
			out.Tile[i] = v.See(c.X, c.Y, thick)
		}
	}
	return out
}

// PageOf is the page that found marks stand on as they do: of two pages with the
// same marks in other places, the one whose way from mark to mark is the way that
// the marks themselves, which stand upright on both, say. Where fewer than two are
// found it is the first.
func PageOf(found []Found, pages ...target.Page) target.Page {
	best, most := 0, math.Inf(-1)
	for i, p := range pages {
		mine, drawn := among(found, p.Marks[:])
		sum := 0.0
		for j, f := range mine {
			for k := range mine {
				if j != k {
					sum += sameWay(f, drawn[j], drawn[k], mine[k].Quad)
				}
			}
		}
		if sum > most {
			best, most = i, sum
		}
	}
	return pages[best]
}

// sameWay is the cosine between the way from one mark to another as drawn and as
// seen from the first mark's own sides.
func sameWay(f Found, from, to target.Mark, seen geometry.Quad) float64 {
	right, down := f.Quad[1].Minus(f.Quad[0]), f.Quad[3].Minus(f.Quad[0])
	way := seen[0].Minus(f.Quad[0])
	area := right.Cross(down)
	if area == 0 {
		return 0
	}
	x, y := way.Cross(down)/area, right.Cross(way)/area
	dx, dy := to.X-from.X, to.Y-from.Y
	return (x*dx + y*dy) / (math.Hypot(x, y)*math.Hypot(dx, dy) + 1e-9)
}
