package mark

import (
	"cmp"
	"slices"

	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/target"
)

// Found is one mark in a photo.
type Found struct {
	ID    int           // which mark, see package target
	Quad  geometry.Quad // its black square's corners, from the mark's own top left clockwise
	Paper float64       // light of the white around it, 0–1, coded as in the photo
	Ink   float64       // light of its black
	wrong int
	sure  float64
	again *geometry.Point // where the middle was seen, when only a second look found it
}

// slack is how many cells of 36 may be misread. Marks differ in 16.
const slack = 3

// smallPicture is how many pixels a picture has at most that is also looked at
// unshrunk: in a larger one that takes seconds and finds no more.
const smallPicture = 6_000_000

// Find looks for the marks of the mat and the board. Each is given once, the
// clearest first where one was seen twice; the order is by ID. Mirrored says that
// none was found, and several as a mirror shows them.
func Find(p Plane) (found []Found, mirrored bool) {
	turned := map[int]bool{}
	for _, n := range []int{3, 2, 1} {
		if n > 1 || p.W*p.H <= smallPicture {
			found = merge(found, findAt(p, n, turned))
		}
		if enough(found) {
			break
		}
	}
	return found, len(found) == 0 && len(turned) >= leastMirrored
}

// leastMirrored is how many marks must be seen as in a mirror for the photo to
// count as mirrored.
const leastMirrored = 2

// enough says that a finer look is not worth its time: the whole mat was found,
// or six of the board's eight marks.
func enough(found []Found) bool {
	mat := 0
	for _, f := range found {
		if f.ID <= target.MatBottomLeft {
			mat++
		}
	}
	return mat >= 4 || len(found)-mat >= 6
}

// findAt looks in the picture shrunk by n; corners are of the whole picture. Marks
// seen as in a mirror are added to those given.
func findAt(p Plane, n int, mirrored map[int]bool) []Found {
	if p.W < 16*n || p.H < 16*n || len(p.Pix) < (p.H-1)*p.Stride+p.W {
		return nil
	}
	small := p.shrink(n)
	bits, stride := small.dark()
	var found []Found
	outlines(bits, stride, func(c contour) {
		q, ok := c.quad()
		if !ok {
			return
		}
		rough, ok := small.read(q)
		if !ok {
			return
		}
		if _, _, _, ok := target.Read(rough.bits, 2*slack); !ok {
			if id, _, _, ok := target.Read(rough.bits.Mirrored(), slack); ok {
				mirrored[id] = true
			}
			return
		}
		if f, ok := p.confirm(q.Scaled(float64(n))); ok {
			found = append(found, f)
		}
	})
	return merge(found, nil)
}

// confirm finds the sides of a likely mark in the full picture and reads it
// there.
func (p Plane) confirm(q geometry.Quad) (Found, bool) {
	q, ok := p.refine(q, target.Cells)
	if !ok {
		return Found{}, false
	}
	s, ok := p.read(q)
	if !ok {
		return Found{}, false
	}
	id, turns, wrong, ok := target.Read(s.bits, slack)
	if !ok {
		return Found{}, false
	}
	f := Found{ID: id, Paper: s.paper, Ink: s.ink, wrong: wrong, sure: s.sure}
	for i := range q {
		f.Quad[i] = q[(i+turns)%4]
	}
	return f, true
}

// merge keeps the clearest of each mark.
func merge(a, b []Found) []Found {
	all := slices.Concat(a, b)
	slices.SortFunc(all, func(f, g Found) int {
		return cmp.Or(cmp.Compare(f.ID, g.ID), cmp.Compare(f.wrong, g.wrong), cmp.Compare(g.sure, f.sure))
	})
	return slices.CompactFunc(all, func(f, g Found) bool { return f.ID == g.ID })
}
