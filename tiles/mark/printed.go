package mark

import (
	"cmp"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/target"
)

// Printed is what the labels of a wall may say. The program knows which codes
// it prints, so that one too small or too soft to be read module by module can
// be compared with each of them.
type Printed struct {
	Address string       // of the wall's site; "" = none
	Last    tiles.Number // the highest number given
}

// LabelsOf is what the labels of a wall may say.
func LabelsOf(w tiles.Wall) Printed {
	p := Printed{Address: w.Address}
	for _, t := range w.Tiles {
		p.Last = max(p.Last, t.Number)
	}
	return p
}

// How like a printed code what is seen must be, and how much more than every
// other, as correlations. On simulated photos, down to 2 pixels a module and
// blurred by as much as a module, the right code came to 0.95 or more and led by
// 0.15 or more.
const (
	mostTries  = 3 // places a code may stand in, and formats it may have
	leastFixed = 0.5
	leastCode  = 0.85
	leastLead  = 0.12
)

// read finds the QR code on straightened ground and says which of the wall's
// it is. flat is that ground with finderScale pixels a mm.
func (w Printed) read(found []finder, see lit) (tiles.Number, bool) {
	all := symbols(found, see)
	slices.SortFunc(all, func(a, b symbol) int { return cmp.Compare(b.match, a.match) })
	for _, s := range all[:min(len(all), mostTries)] {
		if s.match < leastFixed {
			break
		}
		c := s.cells(see)
		for _, f := range c.formats() {
			if best, second := w.compare(c, f); best.match >= leastCode && best.match-second.match >= leastLead {
				return best.n, true
			}
		}
	}
	return 0, false
}

// likely is a number and how like its code is.
type likely struct {
	n     tiles.Number
	match float64
}

// softness is the blur that codes are compared under, σ in modules: the first
// for a start, all of them for those that come near.
var softness = [4]float64{0.6, 0.3, 0.85, 1.1}

// near is how many codes are looked at more closely.
const nearCodes = 8

// compare gives the two numbers whose codes are most like what is seen.
func (w Printed) compare(c cells, f target.QRFormat) (best, second likely) {
	var all []likely
	codes := map[tiles.Number]cells{}
	for n := tiles.Number(1); n <= w.upTo(); n++ {
		code, err := target.QRLike(n.Payload(w.addressIn(c.n)), f)
		if err != nil {
			break // too long from here on
		}
		codes[n] = cellsOf(code)
		all = append(all, likely{n, c.likeCode(codes[n], softness[0])})
	}
	slices.SortFunc(all, byMatch)
	all = all[:min(len(all), nearCodes)]
	for i := range all {
		for _, soft := range softness[1:] {
			all[i].match = max(all[i].match, c.likeCode(codes[all[i].n], soft))
		}
	}
	slices.SortFunc(all, byMatch)
	all = append(all, likely{}, likely{})
	return all[0], all[1]
}

func byMatch(a, b likely) int { return cmp.Compare(b.match, a.match) }

// likeCode compares what is seen with a code under a blur, where codes differ.
func (c cells) likeCode(code cells, soft float64) float64 {
	return c.alike(code.blurred(soft, 1), func(i int) bool { return fixed(c.n, i%c.n, i/c.n) == 0 })
}

// upTo is the last of the numbers that have no more digits than the highest
// given: what was given after this list was written must not be taken for
// another.
func (w Printed) upTo() tiles.Number {
	most := tiles.Number(9)
	for most < w.Last {
		most = most*10 + 9
	}
	return most
}

// addressIn is the address that a code of so many modules holds: in the smallest
// there is room for the number alone.
func (w Printed) addressIn(modules int) string {
	if modules == 21 {
		return ""
	}
	return w.Address
}

// formats are the likeliest formats of a code, by the modules beside its
// finder patterns that say it.
func (c cells) formats() (out []target.QRFormat) {
	type scored struct {
		target.QRFormat
		match float64
	}
	var all []scored
	sharp := c.sharpened()
	for level := target.LevelL; level <= target.LevelH; level++ {
		for mask := range 8 {
			f := target.QRFormat{Modules: c.n, Level: level, Mask: mask}
			if code, err := target.QRLike("TILE 1", f); err == nil {
				all = append(all, scored{f, sharp.alike(cellsOf(code), c.saysFormat)})
			}
		}
	}
	slices.SortFunc(all, func(a, b scored) int { return cmp.Compare(b.match, a.match) })
	for _, s := range all[:min(len(all), mostTries)] {
		out = append(out, s.QRFormat)
	}
	return out
}

// saysFormat says that a module is one of the format's (ISO/IEC 18004, 7.9).
func (c cells) saysFormat(i int) bool {
	x, y := i%c.n, i/c.n
	column := x == 8 && (y <= 8 || y >= c.n-8)
	row := y == 8 && (x <= 8 || x >= c.n-8)
	return (column || row) && fixed(c.n, x, y) == 0
}
