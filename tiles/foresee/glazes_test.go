package foresee

import (
	"math"
	"math/rand/v2"

	"github.com/twodip/twodip/tiles/color"
)

// bucket is an invented glaze.
type bucket struct {
	stuff
	thick  float64
	melt   float64 // how far what lies below comes up into it
	family int     // of chemistry
}

// kind is a kind of studio.
type kind struct {
	name     string
	n        int
	hiding   [2]float64 // ln of the scattering, mean and spread
	melt     float64    // the most that coats mingle
	surprise float64    // share of pairs that come out quite otherwise
	scatter  float64
	coats    func(*rand.Rand) stuff // nil = invented ones
}

var usual = kind{name: "layers", n: 16, hiding: [2]float64{-0.8, 1.5}, melt: 1.1, surprise: 0.23, scatter: 1.4}

func (o kind) make(seed uint64) *world {
	r := rand.New(rand.NewPCG(seed, 18))
	w := &world{scatter: o.scatter, random: r}
	clay := clayOf(r)
	glazes := make([]bucket, o.n)
	for i := range glazes {
		glazes[i] = o.bucket(r)
		w.singles = append(w.singles, glazes[i].coat(glazes[i].thick, clay).lab())
	}
	known := o.reactions(r)
	w.pairs = make([]color.Lab, o.n*o.n)
	for i, a := range glazes {
		for j := i; j < o.n; j++ {
			shift := o.shift(r, known[a.family][glazes[j].family])
			w.pairs[i*o.n+j] = dipped(r, a, glazes[j], clay, shift).lab()
			w.pairs[j*o.n+i] = dipped(r, glazes[j], a, clay, shift).lab()
		}
	}
	return w
}

func (o kind) bucket(r *rand.Rand) bucket {
	b := bucket{thick: 0.7 + 0.6*r.Float64(), melt: o.melt * r.Float64(), family: r.IntN(families)}
	make := o.coats
	if make == nil {
		make = invented
	}
	b.stuff = make(r)
	hiding := math.Exp(o.hiding[0] + o.hiding[1]*r.NormFloat64())
	for k := range bands {
		b.s[k] *= hiding
		if o.coats != nil {
			b.k[k] *= hiding // thick enough, it is the measured color
		} else {
			b.k[k] *= math.Sqrt(hiding) // a clear glaze is colored, too
		}
	}
	return b
}

// invented is a glaze of one or two colorants: bands of absorption on a base.
func invented(r *rand.Rand) stuff {
	var g stuff
	base := 0.005 + 0.03*r.Float64()
	strength := math.Exp(-0.6 + 1.3*r.NormFloat64())
	slope := 0.6 * r.Float64()
	for k := range bands {
		g.s[k] = 1 + 0.3*(550-wavelength(k))/300*r.Float64()
		g.k[k] = base + strength*slope*math.Exp(-(wavelength(k)-400)/70) // iron
	}
	for range 1 + r.IntN(2) {
		mid, wide := 420+260*r.Float64(), 25+60*r.Float64()
		for k := range bands {
			t := (wavelength(k) - mid) / wide
			g.k[k] += strength * math.Exp(-t*t/2)
		}
	}
	return g
}

func clayOf(r *rand.Rand) spectrum {
	var g spectrum
	light, warm := 0.35+0.35*r.Float64(), 0.10+0.2*r.Float64()
	for k := range bands {
		g[k] = light + warm*(wavelength(k)-550)/300
	}
	return g
}

// families is how many kinds of chemistry the glazes have, unseen in their
// colors; two that react do so in all their pairs, each pair in its own measure.
const families = 4

type reactions [families][families]*spectrum

func (o kind) reactions(r *rand.Rand) (all reactions) {
	for i := range families {
		for j := i; j < families; j++ {
			if r.Float64() < o.surprise/2 {
				all[i][j] = reaction(r, 1.6)
				all[j][i] = all[i][j]
			}
		}
	}
	return all
}

// reaction is the ln of what a reaction does to the absorption.
func reaction(r *rand.Rand, much float64) *spectrum {
	var s spectrum
	mid, wide, by := 420+260*r.Float64(), 30+60*r.Float64(), much*r.NormFloat64()
	for k := range bands {
		t := (wavelength(k) - mid) / wide
		s[k] = by * math.Exp(-t*t/2)
	}
	return &s
}

// shift is what a surprising pair does to the absorption of both coats where
// they meet, for both orders: half of it runs in families, half is its own.
func (o kind) shift(r *rand.Rand, known *spectrum) *spectrum {
	own := reaction(r, 1.6)
	if r.Float64() >= o.surprise/2 {
		own = nil
	}
	if own == nil && known == nil {
		return nil
	}
	var s spectrum
	share := 0.5 + r.Float64()
	for k := range bands {
		if own != nil {
			s[k] += own[k]
		}
		if known != nil {
			s[k] += share * known[k]
		}
		s[k] = math.Exp(s[k])
	}
	return &s
}

// dipped is b over a on the clay: some of a comes up into b, as the melt has
// it, and the coats are not twice as thick.
func dipped(r *rand.Rand, a, b bucket, clay spectrum, shift *spectrum) spectrum {
	up := min(0.9, max(0, (a.melt+b.melt)/2*(1+0.5*r.NormFloat64())))
	upper, lower := b.stuff.mixed(a.stuff, up/2), a.stuff.mixed(b.stuff, up/2)
	if shift != nil {
		for k := range bands {
			upper.k[k] *= shift[k]
			lower.k[k] *= math.Sqrt(shift[k])
		}
	}
	thin := func() float64 { return math.Exp(0.1 * r.NormFloat64()) }
	ground := lower.coat(a.thick*thin(), clay)
	return upper.coat(b.thick*thin()*0.95, ground)
}
