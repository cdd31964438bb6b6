package mistaken

import (
	"math"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// coat is one reading of one glaze by itself.
type coat struct {
	tile  tiles.Tile
	zone  tiles.Zone
	photo string
	glaze int // place in coats.of
	lab   color.Lab
}

// coats is every coat of a wall, by glaze.
type coats struct {
	codes []string
	of    [][]coat
}

// gather takes the readings that show one glaze by itself.
func gather(w tiles.Wall) coats {
	var all coats
	for _, r := range w.Readings {
		t, ok := w.Tile(r.Tile)
		if !ok {
			continue
		}
		if code := shows(t.Pair, r.Zone); code != "" {
			g := all.glaze(code)
			all.of[g] = append(all.of[g], coat{tile: t, zone: r.Zone, photo: r.Photo, glaze: g, lab: color.Lab{L: r.L, A: r.A, B: r.B}})
		}
	}
	all.levelLoads()
	return all
}

// shows is the glaze that a zone of the pair shows by itself; "" = none.
func shows(p tiles.Pair, zone tiles.Zone) string {
	switch {
	case zone == tiles.ZoneFirst, zone == tiles.ZoneWhole && p.Single():
		return p.First
	case zone == tiles.ZoneSecond:
		return p.Second
	}
	return ""
}

func (c *coats) glaze(code string) int {
	if at := c.find(code); at >= 0 {
		return at
	}
	c.codes, c.of = append(c.codes, code), append(c.of, nil)
	return len(c.codes) - 1
}

func (c coats) find(code string) int {
	return slices.IndexFunc(c.codes, func(have string) bool { return tiles.SameCode(have, code) })
}

// fewest coats of a load whose common shift is taken to be the firing's.
const fewest = 6

// levelLoads takes off each load what it moved all its coats by, so that a hot
// firing is no mistaken photo.
func (c *coats) levelLoads() {
	shifts := map[int][]color.Lab{}
	for _, group := range c.of {
		mid := middle(group)
		for _, one := range group {
			shifts[one.tile.Load] = append(shifts[one.tile.Load], less(one.lab, mid))
		}
	}
	for load, all := range shifts {
		if load == 0 || len(all) < fewest {
			continue
		}
		shift := median(all)
		for g := range c.of {
			for i, one := range c.of[g] {
				if one.tile.Load == load {
					c.of[g][i].lab = less(one.lab, shift)
				}
			}
		}
	}
}

// middle is the median color of the coats, each coordinate by itself: a few
// mistaken ones among them do not move it.
func middle(group []coat) color.Lab {
	labs := make([]color.Lab, len(group))
	for i, one := range group {
		labs[i] = one.lab
	}
	return median(labs)
}

func median(labs []color.Lab) color.Lab {
	along := func(of func(color.Lab) float64) float64 {
		xs := make([]float64, len(labs))
		for i, l := range labs {
			xs[i] = of(l)
		}
		return middleOf(xs)
	}
	return color.Lab{
		L: along(func(l color.Lab) float64 { return l.L }),
		A: along(func(l color.Lab) float64 { return l.A }),
		B: along(func(l color.Lab) float64 { return l.B }),
	}
}

// middleOf is the median; NaN of nothing.
func middleOf(xs []float64) float64 {
	if len(xs) == 0 {
		return math.NaN()
	}
	slices.Sort(xs)
	n := len(xs)
	return (xs[(n-1)/2] + xs[n/2]) / 2
}

func less(p, q color.Lab) color.Lab { return color.Lab{L: p.L - q.L, A: p.A - q.A, B: p.B - q.B} }
