package mark

import (
	"fmt"
	"math"
	"slices"

	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/target"
)

// Few is the error of a photo in which too few marks were found. Seen of 0
// means that the photo shows no mat or board at all.
type Few struct {
	What       string // "mat" or "board"
	Seen, Want int
	Of         int
}

// Error says what to do differently.
func (e Few) Error() string {
	if e.Seen == 0 {
		return fmt.Sprintf("no mark of the %s is seen", e.What)
	}
	return fmt.Sprintf("%d of the %s's %d marks can be read, and it takes %d; keep every mark in the picture, uncovered, in focus and free of glare", e.Seen, e.What, e.Of, e.Want)
}

// among keeps the found marks that belong to the target, with their drawing.
func among(found []Found, marks []target.Mark) (mine []Found, drawn []target.Mark) {
	for _, f := range found {
		i := slices.IndexFunc(marks, func(m target.Mark) bool { return m.ID == f.ID })
		if i >= 0 {
			mine, drawn = append(mine, f), append(drawn, marks[i])
		}
	}
	return mine, drawn
}

// byID is the mark with the ID, which is there.
func byID(marks []target.Mark, id int) target.Mark {
	return marks[slices.IndexFunc(marks, func(m target.Mark) bool { return m.ID == id })]
}

// anchorsOf are the corners of found marks, and the middle of those that only a
// second look found.
func anchorsOf(found []Found, drawn []target.Mark) []anchor {
	var out []anchor
	for i, m := range drawn {
		if at := found[i].again; at != nil {
			out = append(out, middleOf(m.Rect, *at, 3))
			continue
		}
		for k, c := range m.Corners() {
			out = append(out, anchor{x: c[0], y: c[1], mx: m.X + m.W/2, my: m.Y + m.H/2, seen: found[i].Quad[k], weight: 10})
		}
	}
	return out
}

// middleOf is the anchor of a mark or tag of which only the middleOf is known.
func middleOf(r target.Rect, seen geometry.Point, weight float64) anchor {
	x, y := r.X+r.W/2, r.Y+r.H/2
	return anchor{x: x, y: y, mx: x, my: y, seen: seen, weight: weight}
}

// solve fits a view to found marks, from several focal lengths where the
// photo does not say its own, and takes out a mark that does not fit the others.
func solve(found []Found, drawn []target.Mark, w, h int, l lens) (View, []Found, error) {
	for {
		v, err := fitBest(anchorsOf(found, drawn), w, h, l)
		if err != nil {
			return View{}, nil, err
		}
		worst, off := worstMark(&v, found, drawn)
		if off < 4+0.002*float64(w) || len(found) <= 3 {
			return v, found, nil
		}
		found, drawn = slices.Delete(slices.Clone(found), worst, worst+1), slices.Delete(slices.Clone(drawn), worst, worst+1)
	}
}

func fitBest(as []anchor, w, h int, l lens) (View, error) {
	var best View
	least := math.Inf(1)
	for _, f := range []float64{1, 0.8, 1.25} {
		v, err := start(as, w, h, l.focal*f)
		if err != nil {
			continue
		}
		v.focal = l.focal * f
		if v, err = v.fit(as, l, false); err != nil {
			continue
		}
		if c := v.residual(as) + math.Abs(math.Log(v.focal/l.focal))*0.1; c < least {
			best, least = v, c
		}
		if l.spread < 0.1 {
			break
		}
	}
	if math.IsInf(least, 1) {
		return View{}, errNoView
	}
	return best, nil
}

func worstMark(v *View, found []Found, drawn []target.Mark) (at int, off float64) {
	for i, m := range drawn {
		sum := 0.0
		for k, c := range m.Corners() {
			sum += v.See(c[0], c[1], 0).Distance(found[i].Quad[k]) / 4
		}
		if sum > off {
			at, off = i, sum
		}
	}
	return at, off
}

// quad is where a rectangle of the ground, lifted by height mm, is seen.
func (v *View) quad(r target.Rect, height float64) geometry.Quad {
	var q geometry.Quad
	for i, c := range r.Corners() {
		q[i] = v.See(c[0], c[1], height)
	}
	return q
}
