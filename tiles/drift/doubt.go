package drift

import (
	"maps"
	"math"
	"slices"
	"time"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// How far the difference of two readings may be from the truth, ± ΔE00, 95 %,
// by what their photos have in common: measured with nine cameras of published
// sensitivities under ten published lights, a grey card in every photo. What
// two readings have wrong together does not part them.
const (
	onePhoto   = 0.9
	oneSession = 1.1 // same camera and light
	otherLight = 6.1
	noCard     = 1.5 // one photo without anything to correct by (common practice, no source)
)

// sitting is how long a camera and its light are taken to stay as they are
// (common practice, no source).
const sitting = 30 * time.Minute

// moves says what a difference is worth by how far strongly colored tiles that
// are in both photos seem to have moved between them, ΔE00 (same measurement).
var moves = []struct{ under, doubt float64 }{{0.7, 1.2}, {1.5, 1.8}, {3, 4.1}, {6, 6.3}}

// strong is the chroma from which a tile's own movement tells of the light;
// grey ones tell nothing. two is how many of them it takes.
const (
	strong = 20.0
	two    = 2
)

// photos is the readings of strongly colored tiles by photo, to see what light
// did between two of them.
type photos map[string]map[tiles.Number]color.Lab

func newPhotos(readings []tiles.Reading) photos {
	p := photos{}
	for _, r := range readings {
		if r.Photo == "" || r.Class == tiles.ClassControls || math.Hypot(r.A, r.B) < strong {
			continue
		}
		if p[r.Photo] == nil {
			p[r.Photo] = map[tiles.Number]color.Lab{}
		}
		p[r.Photo][r.Tile] = labOf(r)
	}
	return p
}

// moved is the mean ΔE00 by which the strongly colored tiles in both photos
// seem to have moved; ok is false where there are fewer than two.
func (p photos) moved(a, b string) (mean float64, ok bool) {
	n := 0
	for tile, lab := range p[a] {
		if other, both := p[b][tile]; both {
			mean = max(mean, color.DE00(lab, other))
			n++
		}
	}
	return mean, n >= two
}

// between is the doubt of the difference of two readings, ± ΔE00 at 95 %, for
// what photographs leave open; 0 = not known.
func (p photos) between(a, b tiles.Reading) float64 {
	apart := 0.0
	if a.Doubt > 0 && b.Doubt > 0 {
		apart = math.Hypot(a.Doubt, b.Doubt) // each errs on its own
	}
	camera := a.Class == tiles.ClassCamera || b.Class == tiles.ClassCamera
	switch {
	case a.Photo != "" && a.Photo == b.Photo && camera:
		return noCard
	case a.Photo != "" && a.Photo == b.Photo:
		return onePhoto
	case apart == 0:
		return 0
	}
	if how, ok := p.moved(a.Photo, b.Photo); ok {
		for _, m := range moves {
			if how < m.under {
				return min(m.doubt, apart)
			}
		}
		return apart
	}
	switch {
	case camera:
		return apart
	case a.Class == b.Class && a.Profile == b.Profile && together(a.Taken, b.Taken):
		return min(oneSession, apart)
	}
	return min(otherLight, apart)
}

// together says that two photos were taken in one sitting.
func together(a, b string) bool {
	const layout = "2006-01-02 15:04"
	x, errX := time.Parse(layout, a)
	y, errY := time.Parse(layout, b)
	return errX == nil && errY == nil && x.Sub(y).Abs() <= sitting
}

func labOf(r tiles.Reading) color.Lab { return color.Lab{L: r.L, A: r.A, B: r.B} }

// norm95 is how many standard deviations an axis a difference over three axes
// stays within, 95 times in 100: the square root of the 0.95 quantile of
// chi-squared with three degrees of freedom, 7.81 (NIST/SEMATECH e-Handbook,
// 1.3.6.7.4).
const norm95 = 2.795

// usualSpread is the standard deviation an axis by which tiles of one bucket
// and one firing differ, in CIELAB units, where the studio's controls say
// nothing of it; it counts as usualWeight degrees of freedom against what they
// say (measured on simulated studios; no published figure was found).
const (
	usualSpread = 0.75
	usualWeight = 3.0
)

// allowance is for a spread that is itself worked out from few tiles (found by
// simulation: without it 6 % of stable buckets are blamed, with it 4 %).
const allowance = 1.08

// spreadOf is the standard deviation an axis of single tiles about their load's
// mean, from controls that stood several to a load, CIELAB units.
func spreadOf(controls map[int][]controlShot) float64 {
	squares, free := usualWeight*usualSpread*usualSpread, usualWeight
	for _, load := range slices.Sorted(maps.Keys(controls)) {
		by := map[tiles.Number][]shot{}
		for _, c := range controls[load] {
			by[c.of] = append(by[c.of], c.shot)
		}
		for _, of := range slices.Sorted(maps.Keys(by)) {
			m := mean(by[of])
			for _, s := range by[of] {
				squares += (square(s.lab.L-m.L) + square(s.lab.A-m.A) + square(s.lab.B-m.B)) / 3
			}
			free += float64(len(by[of]) - 1)
		}
	}
	return allowance * math.Sqrt(squares/free)
}

// worth is what a CIELAB unit in any direction is worth in ΔE00 at a color, the
// root of the mean square over the three axes: about 1 at a mid grey, less among
// strong, dark and light colors. Worked out from steps of one unit.
func worth(at color.Lab) float64 {
	sum := 0.0
	for _, step := range []color.Lab{{L: 1}, {A: 1}, {B: 1}} {
		there := color.Lab{L: at.L + step.L, A: at.A + step.A, B: at.B + step.B}
		sum += square(color.DE00(at, there))
	}
	return math.Sqrt(sum / 3)
}

func square(x float64) float64 { return x * x }
