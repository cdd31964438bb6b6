package foresee

import (
	"math/rand/v2"
	"testing"

	"github.com/twodip/twodip/tiles/color/spectral"
)

// chips is a studio whose glazes are, thick enough, 1,269 measured matt Munsell
// chips (University of Eastern Finland; ../shared/reference/reflectances says
// source and licence), drawn at random.
func chips(t *testing.T) kind {
	table := spectral.Across(t, spectral.Published(t, "reflectances/munsell-gloss-matt/munsell_matt_380-780_5nm.csv"))
	o := usual
	o.name = "measured chips"
	o.coats = func(r *rand.Rand) stuff {
		chip := table.Of[table.Names[r.IntN(len(table.Names))]]
		var g stuff
		for k := range bands {
			v := min(max(chip[int(wavelength(k)-380)/5], 0.01), 0.97)
			g.s[k], g.k[k] = 1, (1-v)*(1-v)/(2*v) // Kubelka and Munk 1931
		}
		return g
	}
	return o
}
