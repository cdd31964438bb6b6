package demo

import (
	"hash/fnv"
	"math/rand/v2"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// A look is how one invented glaze fires: colors as CIELAB D50, everything
// else 0–1. Invented, like the glazes.
type look struct {
	base   color.Lab // a full coat
	thin   color.Lab // where it thins over an edge
	deep   color.Lab // where it pools
	cover  float32   // how much it hides what is under it
	gloss  float32
	mottle float32 // how unevenly it breaks
	flow   float32 // how much of that is drawn down the face
	flux   float32 // how far it runs, and makes its partner run
	crawl  float32 // draws back into islands over another coat
	crack  float32 // a net of fine cracks
	specks float32 // iron spots from the clay
	spot   color.Lab
}

// looks are the looks of the demo's glazes, by code.
var looks = map[string]look{
	"QM": {base: lab(89, 1, 7), thin: lab(74, 7, 17), deep: lab(92, 0, 5), cover: 0.86, gloss: 0.08, mottle: 0.25, crawl: 0.15, specks: 0.30, spot: lab(50, 11, 21)},
	"LR": {base: lab(36, 24, 22), thin: lab(55, 17, 33), deep: lab(25, 15, 12), cover: 0.82, gloss: 0.30, mottle: 0.50, flow: 0.2, flux: 0.15, specks: 0.2, spot: lab(14, 5, 4)},
	"TB": {base: lab(29, 3, -27), thin: lab(54, -5, -15), deep: lab(17, 5, -22), cover: 0.74, gloss: 0.85, mottle: 0.40, flow: 0.5, flux: 0.45},
	"FG": {base: lab(72, -10, 6), thin: lab(83, -3, 9), deep: lab(55, -15, 3), cover: 0.22, gloss: 0.95, mottle: 0.15, flux: 0.40, crack: 0.6},
	"HS": {base: lab(54, -3, -8), thin: lab(66, 4, 10), deep: lab(44, -3, -12), cover: 0.80, gloss: 0.30, mottle: 0.35, flow: 0.3, specks: 0.65, spot: lab(22, 3, 2)},
	"OH": {base: lab(78, 4, 18), thin: lab(59, 14, 28), deep: lab(84, 2, 13), cover: 0.78, gloss: 0.06, mottle: 0.45, crawl: 0.75, specks: 0.85, spot: lab(38, 13, 20)},
	"PI": {base: lab(14, 2, 2), thin: lab(38, 23, 29), deep: lab(9, 0, -1), cover: 0.90, gloss: 0.95, mottle: 0.35, flow: 0.3, flux: 0.35},
	"MW": {base: lab(49, -10, 20), thin: lab(61, 3, 30), deep: lab(36, -12, 13), cover: 0.76, gloss: 0.10, mottle: 0.65, flow: 0.1},
	"SF": {base: lab(80, -3, -4), thin: lab(57, 8, 18), deep: lab(66, -5, -15), cover: 0.55, gloss: 0.65, mottle: 0.80, flow: 0.9, flux: 0.85},
	"PP": {base: lab(43, 14, -6), thin: lab(62, 9, 8), deep: lab(32, 15, -10), cover: 0.72, gloss: 0.35, mottle: 0.45, flow: 0.2, flux: 0.10},
	"HG": {base: lab(60, 14, 43), thin: lab(77, 5, 30), deep: lab(42, 22, 37), cover: 0.28, gloss: 0.95, mottle: 0.25, flow: 0.5, flux: 0.75},
	"CM": {base: lab(57, -20, -4), thin: lab(36, -4, 6), deep: lab(64, -22, -6), cover: 0.80, gloss: 0.06, mottle: 0.65, specks: 0.15, spot: lab(20, -4, 0)},
}

func lab(l, a, b float64) color.Lab { return color.Lab{L: l, A: a, B: b} }

// lookOf is the look of a code; one that the demo does not know gets a look of
// its own, the same each time.
func lookOf(code string) look {
	if l, ok := looks[code]; ok {
		return l
	}
	r := chance("glaze", code)
	base := lab(25+r.Float64()*60, r.NormFloat64()*12, r.NormFloat64()*16)
	return look{
		base: base, thin: lab(base.L*0.6+28, base.A*0.5+6, base.B*0.5+12), deep: lab(base.L*0.8, base.A*1.1, base.B*1.1),
		cover: 0.4 + r.Float32()*0.5, gloss: r.Float32(), mottle: r.Float32() * 0.7, flow: r.Float32(), flux: r.Float32() * 0.6,
	}
}

// moved is the look with its colors moved in CIELAB.
func (l look) moved(by color.Lab) look {
	for _, c := range []*color.Lab{&l.base, &l.thin, &l.deep} {
		*c = lab(c.L+by.L, c.A+by.A, c.B+by.B)
	}
	return l
}

// melt is what two coats make of each other, more than the sum: a shift of
// color, an unevenness and a run that neither has alone. It depends on the
// order.
type melt struct {
	shift  color.Lab
	mottle float32
	flow   float32
	run    float32 // mm at most below the dip line
	crawl  float32
}

func meltOf(p tiles.Pair) melt {
	if p.Single() {
		return melt{}
	}
	under, over := lookOf(p.First), lookOf(p.Second)
	r := chance(p.First, p.Second)
	m := melt{
		shift:  lab(r.NormFloat64()*3-1, r.NormFloat64()*2.5, r.NormFloat64()*3),
		mottle: clamp(0.2+0.5*max(under.mottle, over.mottle)+0.3*r.Float32(), 0, 1),
		flow:   clamp(under.flux*0.6+over.flow*0.6+r.Float32()*0.2, 0, 1),
		run:    0.8 + 15*max(0, over.flux*0.75+under.flux*0.55-0.42)*(0.6+0.8*r.Float32()),
		crawl:  max(0, over.crawl*(0.7+0.6*r.Float32())-0.35),
	}
	if p.Double() {
		m.shift = lab(-1, 0, 0)
	}
	return m
}

// chance is a source of chance that is the same for the same words.
func chance(words ...string) *rand.Rand {
	h := fnv.New64a()
	for _, w := range words {
		h.Write([]byte(w))
		h.Write([]byte{0})
	}
	return rand.New(rand.NewPCG(h.Sum64(), 0x6b69_6c6e))
}
