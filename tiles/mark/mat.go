package mark

import (
	"github.com/twodip/twodip/tiles/target"

	"github.com/twodip/twodip/tiles/geometry"
)

// Mat is a photo of the mat, understood.
type Mat struct {
	View           View
	Marks          []Found
	Tile           geometry.Quad // outline of the tile's face, from its own top left clockwise
	Settled        bool          // the tile's own edges were seen; otherwise Tile is where its outline is printed
	LabelPlace     geometry.Quad
	ReferencePlace geometry.Quad
	Paper          []geometry.Quad // paper left blank
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
	m := Mat{View: v, Marks: mine, Tile: v.quad(page.Tile, thick), LabelPlace: v.quad(page.Label, 0), ReferencePlace: v.quad(page.Reference, 0)}
	if l, ok := lookAt(p, tint).settle(&v, page.Tile, thick); ok {
		m.Settled = true
		for i, c := range l.corners() {
			m.Tile[i] = v.See(c.X, c.Y, thick)
		}
	}
	for _, r := range page.Paper {
		m.Paper = append(m.Paper, v.quad(r, 0))
	}
	return m, nil
}
