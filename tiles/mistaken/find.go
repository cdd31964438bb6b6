package mistaken

import (
	"cmp"
	"math"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// Photo is a photograph that is unlike the tile it is kept under.
type Photo struct {
	Photo string // below tiles/photos
	Tile  tiles.Number
	Zone  tiles.Zone     // the zone that is most unlike
	Glaze string         // code of the glaze that the zone should show
	DE    float64        // how far it is from the others of that glaze, ΔE00
	Fits  []tiles.Number // tiles whose glazes it does look like, best first, at most three
}

// Find lists the photographs of the wall that are likelier of another tile, by
// tile. A wall with one photo a glaze has nothing to hold them against.
func Find(w tiles.Wall) []Photo {
	all := gather(w)
	usual := all.judge()
	var out []Photo
	for _, shown := range all.byPhoto() {
		if p, ok := usual.unlike(w, shown); ok {
			out = append(out, p)
		}
	}
	slices.SortFunc(out, func(a, b Photo) int { return cmp.Or(int(a.Tile-b.Tile), cmp.Compare(a.Photo, b.Photo)) })
	return out
}

// byPhoto gathers the coats that one photo shows of one tile.
func (c coats) byPhoto() map[string][]coat {
	out := map[string][]coat{}
	for _, group := range c.of {
		for _, one := range group {
			key := one.photo + "\n" + one.tile.Number.String()
			out[key] = append(out[key], one)
		}
	}
	return out
}

// glazes is what each glaze looks like on this wall, and how far its tiles lie
// from it.
type glazes struct {
	coats
	wall   float64     // how far the coats of any glaze usually lie from its middle, ΔE00
	middle []color.Lab // of each glaze, with every photo
}

func (c coats) judge() glazes {
	var apart []float64
	g := glazes{coats: c}
	for _, group := range c.of {
		mid := middle(group)
		g.middle = append(g.middle, mid)
		if len(group) > 2 {
			for _, one := range group {
				apart = append(apart, color.DE00(one.lab, mid))
			}
		}
	}
	if len(apart) > 0 {
		g.wall = middleOf(apart)
	}
	return g
}

// Bounds, in multiples of the usual distance from a glaze's middle: of a
// three-dimensional normal scatter one coat in 20,000 lies beyond 3 times the
// median distance; tiles have longer tails than that. A color nearer than
// leastDE is never called another.
const (
	beyond  = 3.2
	leastDE = 5
	alone   = 1.6 // the share of the bound that a photo fitting no other tile must be beyond
)

// plainlyOne says without a closer look that a color is of the glaze: among
// many coats one photo's own do not move the middle by much.
func (g glazes) plainlyOne(lab color.Lab, glaze int) bool {
	return len(g.of[glaze]) >= 2*fewest && color.DE00(lab, g.middle[glaze]) < leastDE/2
}

// far says how far a color is from a glaze, in ΔE00 and as a share of the bound
// beyond which it is another; photo's own coats are left out. With nothing to
// hold it against the share is NaN.
func (g glazes) far(lab color.Lab, glaze int, photo string) (de, share float64) {
	others := make([]color.Lab, 0, len(g.of[glaze]))
	for _, one := range g.of[glaze] {
		if one.photo != photo {
			others = append(others, one.lab)
		}
	}
	if len(others) == 0 {
		return 0, math.NaN()
	}
	mid := median(others)
	apart := make([]float64, len(others))
	for i, o := range others {
		apart[i] = color.DE00(o, mid)
	}
	usual := max(g.wall, middleOf(apart))
	few := 1 + 1/float64(len(others)) // a middle of few is itself off
	de = color.DE00(lab, mid)
	return de, de / max(leastDE, beyond*usual*few)
}

// unlike judges one photo of one tile.
func (g glazes) unlike(w tiles.Wall, shown []coat) (Photo, bool) {
	var worst Photo
	share := 0.0
	for _, one := range shown {
		if g.plainlyOne(one.lab, one.glaze) {
			continue
		}
		de, s := g.far(one.lab, one.glaze, one.photo)
		if s > share {
			share = s
			worst = Photo{Photo: one.photo, Tile: one.tile.Number, Zone: one.zone, Glaze: g.codes[one.glaze], DE: de}
		}
	}
	bound := 1.0
	if shown[0].tile.Retest() {
		bound = 2 // a re-test is made because its bucket may have changed
	}
	if share < bound {
		return Photo{}, false
	}
	worst.Fits = g.fits(w, shown, share)
	return worst, len(worst.Fits) > 0 || share > bound*alone
}

// fits lists the tiles whose glazes a photo looks like, far better than it
// looks like its own.
func (g glazes) fits(w tiles.Wall, shown []coat, share float64) []tiles.Number {
	type candidate struct {
		tile  tiles.Number
		share float64
	}
	seen := map[tiles.Pair]float64{}
	var found []candidate
	for _, t := range w.Tiles {
		if t.Number == shown[0].tile.Number || !t.Own() || t.Status == tiles.Retired {
			continue
		}
		s, known := seen[t.Pair]
		if !known {
			s = g.worstAs(t.Pair, shown)
			seen[t.Pair] = s
		}
		if s < 1 && s < share/2 {
			found = append(found, candidate{t.Number, s})
		}
	}
	slices.SortFunc(found, func(a, b candidate) int { return cmp.Or(cmp.Compare(a.share, b.share), int(a.tile-b.tile)) })
	var out []tiles.Number
	for _, c := range found[:min(3, len(found))] {
		out = append(out, c.tile)
	}
	return out
}

// worstAs is how unlike the photo's coats would be if it showed the pair.
func (g glazes) worstAs(p tiles.Pair, shown []coat) float64 {
	worst := 0.0
	for _, one := range shown {
		code := shows(p, one.zone)
		if p.Single() {
			code = p.First // a single shows its glaze wherever one looks
		}
		at := g.find(code)
		if code == "" || at < 0 {
			return math.Inf(1)
		}
		if _, s := g.far(one.lab, at, one.photo); s > worst || math.IsNaN(s) {
			worst = s
		}
	}
	return worst
}
