package drift

import (
	"math"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// comparing is what is known for comparing one tile with another.
type comparing struct {
	controls map[int][]controlShot // load → its controls
	photos   photos
	spread   float64 // of single tiles, standard deviation an axis, CIELAB units
}

func newComparing(w tiles.Wall, list shots) comparing {
	c := comparing{controls: map[int][]controlShot{}, photos: newPhotos(w.Readings)}
	repeated := map[tiles.Number]bool{}
	for _, s := range list {
		if w.Kiln.IsControl(s.tile) {
			repeated[s.tile.Repeats] = true
		}
	}
	for _, s := range list {
		switch load := s.tile.Load; {
		case load == 0:
		case w.Kiln.IsControl(s.tile):
			c.controls[load] = append(c.controls[load], controlShot{s.tile.Repeats, s})
		case repeated[s.tile.Number]: // the wall's own tile is the first of its controls
			c.controls[load] = append(c.controls[load], controlShot{s.tile.Number, s})
		}
	}
	c.spread = spreadOf(c.controls)
	return c
}

// controlShot is a control and the wall's own tile that it repeats.
type controlShot struct {
	of tiles.Number
	shot
}

// closest is the two readings, one of each tile, whose difference is in the
// least doubt, and that doubt; the later ones where several are. A doubt that
// is not known comes last.
func (c comparing) closest(a, b shot) (before, after tiles.Reading, light float64) {
	found := false
	for _, x := range a.readings {
		for _, y := range b.readings {
			if x.Zone != y.Zone {
				continue
			}
			doubt := c.photos.between(x, y)
			if !found || light == 0 || doubt > 0 && doubt <= light {
				before, after, light, found = x, y, doubt, true
			}
		}
	}
	if !found { // read in different zones
		return a.readings[0], b.readings[0], 0
	}
	return before, after, light
}

// closeLight is the doubt that light may leave between two controls for their
// difference to tell of the firing, ± ΔE00.
const closeLight = 2.0

// shift is how far one load's controls lie from another's, CIELAB, and how sure
// that is, ± CIELAB units at 95 %. Only controls are compared between whose photos the light
// moved little: taking off what it did to a tile of another color makes the
// difference worse. parted says that both loads have controls, and that they do
// not lie apart by something that could not be taken off.
func (c comparing) shift(then, now int) (moved color.Lab, doubt float64, parted bool) {
	pairs, light := c.pairs(then, now)
	if then == now || len(pairs) == 0 {
		return color.Lab{}, 0, false
	}
	for _, p := range pairs {
		moved.L += p.L / float64(len(pairs))
		moved.A += p.A / float64(len(pairs))
		moved.B += p.B / float64(len(pairs))
	}
	size := math.Sqrt(square(moved.L) + square(moved.A) + square(moved.B))
	if light == 0 || light > closeLight {
		return color.Lab{}, 0, light > 0 && size <= math.Hypot(light, norm95*c.spread*math.Sqrt2)
	}
	// What the controls seem to move is partly the tiles' own spread: it is
	// taken off by the share that is not (the positive-part estimator of James
	// and Stein, Proc. 4th Berkeley Symp. 1:361, 1961, by an axis).
	variance := square(c.spread)*2/float64(len(pairs)) + square(light/norm95)
	share := max(0, 1-3*variance/max(square(size), 1e-9))
	moved.L, moved.A, moved.B = moved.L*share, moved.A*share, moved.B*share
	return moved, norm95 * math.Sqrt(share*variance), true
}

// pairs is the differences of the same control between two loads, by its
// readings that tell most, and the widest doubt that light leaves them. Where
// some are compared closely the others are left out.
func (c comparing) pairs(then, now int) (pairs []color.Lab, light float64) {
	for _, closely := range []bool{true, false} {
		for _, a := range c.controls[then] {
			for _, b := range c.controls[now] {
				if a.of != b.of {
					continue
				}
				x, y, doubt := c.closest(a.shot, b.shot)
				if closely && (doubt == 0 || doubt > closeLight) {
					continue
				}
				pairs = append(pairs, color.Lab{L: y.L - x.L, A: y.A - x.A, B: y.B - x.B})
				light = max(light, doubt)
			}
		}
		if len(pairs) > 0 {
			break
		}
	}
	return pairs, light
}
