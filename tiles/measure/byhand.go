package measure

import (
	"fmt"
	"math"
	"path"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/photo"
)

// byHandFile is where people draw outlines and name tiles.
const byHandFile = "tiles/by-hand.csv"

// mostOut is how far a corner drawn by hand may lie off the picture, as a share
// of its longer side: more is no slip of the hand but another picture's outline.
const mostOut = 0.02

// onPicture refuses outlines drawn by hand that reach off the picture.
func (a Ask) onPicture(p *photo.Photo) error {
	for _, h := range a.byHand() {
		if h.Drawn && reachesOut(quadOfHand(h.Outline), p, mostOut) {
			return tiles.Problem{File: byHandFile, Line: h.Line,
				What: fmt.Sprintf("the outline reaches off the photo %s, which is %d × %d pixels", a.Photo, p.Width(), p.Height()),
				Do:   countFrom,
			}
		}
	}
	return nil
}

// FarRows is the rows of tiles/by-hand.csv whose outline cannot lie on its
// photo, of which sideOf gives the longer side in pixels; 0 = not known.
func FarRows(hand []tiles.ByHand, sideOf func(photo string) int) (out tiles.Problems) {
	for _, h := range hand {
		if !h.Drawn {
			continue
		}
		side := float64(sideOf(h.Photo))
		low, high := math.Inf(1), math.Inf(-1)
		for _, c := range h.Outline {
			low, high = min(low, c[0], c[1]), max(high, c[0], c[1])
		}
		if side > 0 && (low < -mostOut*side || high > (1+mostOut)*side) {
			out = append(out, tiles.Problem{File: byHandFile, Line: h.Line,
				What: fmt.Sprintf("the outline reaches off the photo %s, whose longer side has %.0f pixels", h.Photo, side), Do: countFrom})
		}
	}
	return out
}

// countFrom says how an outline is written.
const countFrom = "give x and y of the four corners in pixels of the upright photo, counted from its top left"

// reachesOut says that a corner lies further off the picture than the share of
// its longer side.
func reachesOut(q geometry.Quad, p *photo.Photo, share float64) bool {
	w, h := float64(p.Width()), float64(p.Height())
	out := share * max(w, h)
	for _, c := range q {
		if !(c.X >= -out && c.Y >= -out && c.X <= w+out && c.Y <= h+out) {
			return true
		}
	}
	return false
}

// StrayRows is the rows of tiles/by-hand.csv whose photo is not among those
// there are, each with the name that comes near where one does: another way to
// write capitals, the ending or the folder. Names are one photo's as
// tiles.SamePhoto has it.
func StrayRows(hand []tiles.ByHand, photos []string) (out tiles.Problems) {
	there := map[string]bool{}
	near := map[string]string{}
	for _, name := range photos {
		there[tiles.Composed(name)] = true
		for _, key := range nearKeys(name) {
			near[key] = name
		}
	}
	for _, h := range hand {
		if there[tiles.Composed(h.Photo)] {
			continue
		}
		p := tiles.Problem{File: byHandFile, Line: h.Line, What: fmt.Sprintf("there is no photo %s in tiles/photos", h.Photo), Do: "write the photo's name as it is there, or take the row out"}
		for _, key := range nearKeys(h.Photo) {
			if name, ok := near[key]; ok {
				p.Do = fmt.Sprintf("write %s if that is the one", name)
				break
			}
		}
		out = append(out, p)
	}
	return out
}

// nearKeys are what names that come near have in common, the nearest first.
func nearKeys(name string) []string {
	whole := strings.ToLower(tiles.Composed(name))
	base := path.Base(whole)
	return []string{whole, "in a folder/" + base, "of any kind/" + strings.TrimSuffix(base, path.Ext(base))}
}
