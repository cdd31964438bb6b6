package drift

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// rig is an invented studio that re-tests a bucket of each glaze once: tiles of
// one bucket differ by spread an axis, firings by firing an axis, and readings
// err as photographs do.
type rig struct {
	*rand.Rand
	spread, firing float64
	controls       int    // of a white and of a red glaze, each load
	way            string // how old and new tile were photographed
}

// lab is a random glaze color.
func (g rig) color() color.Lab {
	chroma, hue := 35*g.Float64(), 2*math.Pi*g.Float64()
	return color.Lab{L: 25 + 60*g.Float64(), A: chroma * math.Cos(hue), B: chroma * math.Sin(hue)}
}

func (g rig) noise(lab color.Lab, s float64) color.Lab {
	return color.Lab{L: lab.L + s*g.NormFloat64(), A: lab.A + s*g.NormFloat64(), B: lab.B + s*g.NormFloat64()}
}

func plus(a, b color.Lab) color.Lab { return color.Lab{L: a.L + b.L, A: a.A + b.A, B: a.B + b.B} }

// toward is a color so many ΔE00 from another, in a random direction.
func (g rig) toward(lab color.Lab, de float64) color.Lab {
	way := g.noise(color.Lab{}, 1)
	low, high := 0.0, 40.0
	at := func(k float64) color.Lab {
		return color.Lab{L: lab.L + k*way.L, A: lab.A + k*way.A, B: lab.B + k*way.B}
	}
	for range 40 {
		if mid := (low + high) / 2; color.DE00(lab, at(mid)) < de {
			low = mid
		} else {
			high = mid
		}
	}
	return at(low)
}

// studio is one of twelve glazes whose buckets were all mixed again; each moved
// by de, ΔE00 of the bucket's own color.
func (g rig) studio(de float64) Report {
	var codes []string
	for i := range 12 {
		codes = append(codes, string(rune('A'+i)))
	}
	k := newKiln(0, append(codes, "W", "R")...)
	k.wall.Kiln.Controls = []string{"W", "R"}
	one, two := k.load("2026-01-10"), k.load("2026-03-10")
	shift := g.noise(color.Lab{}, g.firing)
	light := map[string]color.Lab{} // photo or sitting → its error
	read := func(n tiles.Number, photo, taken string, class tiles.Class, lab color.Lab) {
		if _, ok := light[photo+taken]; !ok {
			s := 1.5 // 6.1 ÷ 2.8 ÷ √2
			if class == tiles.ClassChart {
				s = 0.7
			}
			light[photo+taken] = g.noise(color.Lab{}, s)
		}
		own := 0.23 // 0.9 ÷ 2.8 ÷ √2
		if photo == "" || g.way != "pair" {
			own = 0.28
		}
		lab = g.noise(plus(lab, light[photo+taken]), own)
		doubt := 5.0
		if class == tiles.ClassChart {
			doubt = 2.5
		}
		k.wall.Readings = append(k.wall.Readings, tiles.Reading{Tile: n, Zone: tiles.ZoneWhole, L: lab.L, A: lab.A, B: lab.B,
			Photo: photo, Taken: taken, Class: class, Profile: "sRGB", Doubt: doubt})
	}
	tile := func(load int, code string, repeats tiles.Number, batch string, lab color.Lab) (tiles.Number, color.Lab) {
		n := tiles.Number(len(k.wall.Tiles) + 1)
		k.wall.Tiles = append(k.wall.Tiles, tiles.Tile{Number: n, Pair: tiles.Pair{First: code}, Status: tiles.Fired, Repeats: repeats, Load: load, Batches: batchNames(code, batch)})
		if load == two {
			lab = plus(lab, shift)
		}
		return n, g.noise(lab, g.spread)
	}
	at := func(n, own tiles.Number) (photo, taken string, class tiles.Class) {
		switch g.way {
		case "pair":
			return fmt.Sprintf("pair-%d.jpg", own), "2026-03-12 10:00", tiles.ClassGrey
		case "chart":
			return fmt.Sprintf("%d.jpg", n), "2026-03-12 10:00", tiles.ClassChart
		}
		return fmt.Sprintf("%d.jpg", n), "2026-03-12 10:00", tiles.ClassGrey
	}
	take := func(n, own tiles.Number, lab color.Lab) {
		photo, taken, class := at(n, own)
		if g.way == "pair" {
			read(n, photo, taken, class, lab)
			return
		}
		// One sitting: the light's error is one, whatever the file.
		if _, ok := light["sitting"]; !ok {
			light["sitting"] = g.noise(color.Lab{}, 1.5)
		}
		light[photo+taken] = light["sitting"]
		read(n, photo, taken, class, lab)
	}
	for i, code := range append(codes, "W", "R") {
		lab := g.color()
		if code == "R" {
			lab = color.Lab{L: 40, A: 40, B: 25}
		}
		own, ownLab := tile(one, code, 0, "", lab)
		take(own, own, ownLab)
		if i >= 12 {
			for c := range 2*g.controls - 1 {
				load := two
				if c < g.controls-1 {
					load = one
				}
				n, l := tile(load, code, own, "", lab)
				take(n, own, l)
			}
			continue
		}
		k.batches = append(k.batches, tiles.Batch{Glaze: code, Name: "2", MixedOn: "2026-02-01"})
		again, againLab := tile(two, code, own, code+" 2", g.toward(lab, de))
		take(again, own, againLab)
	}
	return k.drift()
}

func (g rig) share(studios int, de float64) (changed float64, n int) {
	hit := 0
	for range studios {
		for _, b := range g.studio(de).Buckets {
			if b.Glaze == "W" || b.Glaze == "R" {
				continue
			}
			n++
			if b.State == Changed {
				hit++
			}
		}
	}
	return float64(hit) / float64(n), n
}

// In one sitting, with a chart or with both tiles on one mat: at most 5 % of
// stable buckets are said to have changed, and true differences of ΔE00 2, 4
// and 8 are found in at least 25, 85 and 100 % of buckets.
func TestRetestsTellWhatCanBeSeen(t *testing.T) {
	studios, seed := 25, uint64(100)
	if os.Getenv("TWODIP_LONG") != "" {
		studios, seed = 400, 7000
	}
	for _, way := range []string{"pair", "sitting", "chart"} {
		for _, c := range []struct {
			firing, spread float64
			controls       int
		}{{0, 0.75, 3}, {0, 0.75, 1}, {0.5, 0.75, 3}, {1, 0.75, 3}, {1.5, 0.75, 3}, {0, 0.5, 3}, {0, 1, 3}} {
			g := rig{rand.New(rand.NewPCG(seed, 3)), c.spread, c.firing, c.controls, way}
			stable, n := g.share(studios, 0)
			var found [3]float64
			for i, de := range []float64{2, 4, 8} {
				found[i], _ = g.share(studios, de)
			}
			t.Logf("%s, firings apart by %.1f an axis, tiles by %.2f, %d controls a load: n %d, false alarms %.1f %%; ΔE00 2, 4, 8 found in %.0f, %.0f, %.0f %%",
				way, c.firing, c.spread, c.controls, n, 100*stable, 100*found[0], 100*found[1], 100*found[2])
			if c.spread > usualSpread {
				continue // tiles that differ so much hide more: said, and held to no more than this
			}
			margin := 2 * math.Sqrt(0.85*0.15/float64(n)) // of a share of n
			assert.LessOrEqual(t, stable, 0.05+margin)
			for i, want := range []float64{0.25 - margin, 0.85 - margin, 0.99} { // all but one in a hundred of those 8 away
				assert.GreaterOrEqual(t, found[i], want)
			}
		}
	}
}
