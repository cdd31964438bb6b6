package plan

import (
	"fmt"
	"math"

	"github.com/twodip/twodip/tiles"
)

// Materials is what the tiles still to be made ask for.
type Materials struct {
	Tiles    int     // planned tiles, controls and re-tests included
	Spares   int     // made over the plan, in case of breakage
	Clay     float64 // kg of wet clay, waste included
	Wet      tiles.Shape
	Slabs    int         // waste slabs under tiles that run
	SlabWet  tiles.Shape // their size, wet
	Buckets  []Bucket
	Litres   float64 // of glaze in all buckets: what is used, and what stands under the last tile
	Standing float64 // of it, litres that stand under the last tile and stay in the buckets
	Coats    float64 // of it, litres on the tiles, with what drips and bucket walls take
	Cups     int     // times a cup, trough or brush is taken to a glaze for second coats
	Thrown   float64 // litres they leave that are thrown away
	Kept     float64 // litres kept in jars for later second dips
	Assumed  []Assumption
}

// Bucket is how much of one glaze the plan asks for.
type Bucket struct {
	Glaze   tiles.Glaze
	Dips    int     // coats, first and second
	Area    float64 // dm² covered, all dips
	Used    float64 // litres that leave the bucket: coats, loss, what second coats leave
	Fill    float64 // litres that must stand in the bucket to submerge the last tile
	Litres  float64 // Used + Fill: what to have ready before the first dip
	Dry     float64 // kg of dry glaze in Litres
	Water   float64 // litres of water in Litres
	Gravity float64 // specific gravity reckoned with
	deepest float64 // mm that a tile goes in
}

// Assumption is a figure the sums rest on, and the setting that changes it.
type Assumption struct {
	What    string // "raw coat"
	Value   string // with its unit: "0.5 mm"
	Setting string // "dip: thickness" in wall.yaml
}

// Common practice, no source.
const (
	// usualGravity stands for a glaze whose list gives no specific gravity.
	usualGravity = 1.45
	// above is the slurry that must stand over the deepest point of a dip, in mm.
	above = 20
	// beside is the room a tile needs around it in a cup, in mm, both sides.
	beside = 20
)

// Need sums up what the tiles that are planned and not fired ask for: clay,
// and each glaze as first and as second.
func Need(w tiles.Wall) Materials {
	m := Materials{Wet: wet(w.Settings.Tile)}
	byCode := map[string]*Bucket{}
	todo := toMake(w.Tiles)
	cups := cupsOf(todo, Sessions(w))
	for _, t := range todo {
		m.Tiles++
		for i, c := range w.Settings.Tile.Coats(t.Pair) {
			bucket(byCode, w, [2]string{t.First, t.Second}[i]).take(c, w.Settings.Tile)
		}
	}
	m.Spares = int(math.Ceil(float64(m.Tiles) * w.Dip.Spares / 100))
	m.Slabs, m.SlabWet = slabsOf(w, todo)
	m.Clay = (float64(m.Tiles+m.Spares)*volume(m.Wet) + float64(m.Slabs)*volume(m.SlabWet)) * w.Clay.Density * (1 + w.Clay.Waste/100)
	for _, g := range w.Glazes {
		if b := byCode[tiles.CodeKey(g.Code)]; b != nil {
			n := cups[tiles.CodeKey(g.Code)]
			thrown, kept := left(w.Settings, n)
			b.fill(w, thrown+kept)
			m.Buckets = append(m.Buckets, *b)
			m.Litres += b.Litres
			m.Standing += b.Fill
			m.Coats += b.Used - thrown - kept
			m.Cups += n
			m.Thrown += thrown
			m.Kept += kept
		}
	}
	m.Assumed = assumed(w)
	return m
}

// toMake is the tiles that are still to be made: planned, and in no load that
// has been fired.
func toMake(ts []tiles.Tile) []tiles.Tile {
	fired := inKiln(ts)
	var out []tiles.Tile
	for _, t := range ts {
		if t.Status == tiles.Planned && !fired[t.Load] {
			out = append(out, t)
		}
	}
	return out
}

func bucket(byCode map[string]*Bucket, w tiles.Wall, code string) *Bucket {
	b := byCode[tiles.CodeKey(code)]
	if b == nil {
		g := w.Glaze(code)
		b = &Bucket{Glaze: g, Gravity: usualGravity}
		if g.SG > 1 {
			b.Gravity = g.SG
		}
		byCode[tiles.CodeKey(code)] = b
	}
	return b
}

// take counts one dip of a tile.
func (b *Bucket) take(c tiles.Coat, s tiles.Shape) {
	b.Dips++
	b.Area += dipArea(c, s)
	b.deepest = max(b.deepest, c.Depth)
}

// fill works out the litres from the area and what second coats leave beside
// the bucket.
func (b *Bucket) fill(w tiles.Wall, left float64) {
	coats := b.Area * CoatSlurry(w.Dip.Thickness, b.Gravity)
	b.Used = coats*(1+w.Dip.Loss/100) + left
	b.Fill = cylinder(w.Dip.Bucket, b.deepest+above)
	b.Litres = b.Used + b.Fill
	b.Dry = b.Litres * DrySolids(b.Gravity) / 1000
	b.Water = b.Litres*b.Gravity - b.Dry
}

// cylinder is the volume in litres of a round vessel filled so high, in mm.
func cylinder(diameter, height float64) float64 {
	return math.Pi / 4 * diameter * diameter * height / 1e6
}

// dipArea is what a dip covers in dm²: both faces, the edges and the end that
// goes in first. What is wiped or waxed of the foot is not covered.
func dipArea(c tiles.Coat, s tiles.Shape) float64 {
	along, across := c.On.H, s.Width
	if c.In == tiles.EdgeLeft || c.In == tiles.EdgeRight {
		along, across = c.On.W, s.Height-s.Bare
	}
	return (2*(across+s.Thickness)*along + across*s.Thickness) / 1e4
}

// wet is the tile as it is made: larger by the shrinkage.
func wet(s tiles.Shape) tiles.Shape {
	k := 1 / (1 - s.Shrinkage/100)
	s.Width, s.Height, s.Thickness, s.Foot = s.Width*k, s.Height*k, s.Thickness*k, s.Foot*k
	return s
}

// slabsOf is the waste slabs that what runs stands on: one a tile, as large as its
// place on the shelf and its rim, as thick as the tile.
func slabsOf(w tiles.Wall, todo []tiles.Tile) (n int, wetSlab tiles.Shape) {
	for _, t := range todo {
		if runs(w.Glazes, t.Pair) && w.Kiln.Tray > 0 {
			n++
		}
	}
	f := footprintOf(w.Settings, true)
	return n, wet(tiles.Shape{Width: f.width + 2*f.slab, Height: f.depth + 2*f.slab, Thickness: w.Settings.Tile.Thickness, Shrinkage: w.Settings.Tile.Shrinkage})
}

// volume is the clay in a tile with its foot, in litres.
func volume(s tiles.Shape) float64 {
	foot := max(0, s.Foot-s.Thickness)
	return (s.Width*s.Height*s.Thickness + s.Width*foot*s.Thickness) / 1e6
}

// assumed lists what the sums rest on, each with the setting that changes it.
func assumed(w tiles.Wall) []Assumption {
	return []Assumption{
		{"spares", fmt.Sprintf("%g %%", w.Dip.Spares), "dip: spares"},
		{"shrinkage, wet to fired", fmt.Sprintf("%g %%", w.Settings.Tile.Shrinkage), "tile: shrinkage"},
		{"wet clay", w.Units.Density(w.Clay.Density), "clay: density"},
		{"clay cut off", fmt.Sprintf("%g %%", w.Clay.Waste), "clay: waste"},
		{"raw coat", w.Units.Coat(w.Dip.Thickness), "dip: thickness"},
		{"drips and bucket walls", fmt.Sprintf("%g %%", w.Dip.Loss), "dip: loss"},
		{"bucket, inside", w.Units.Length(w.Dip.Bucket) + " across", "dip: bucket"},
		secondAssumed(w.Settings),
		{"loads dipped in one go", togetherWords(w), "dip: together"},
		{"specific gravity", fmt.Sprintf("of the glaze list, %g where it says none", usualGravity), "sg in the glaze list"},
		{"solids in a raw coat", fmt.Sprintf("%g %%, gravity %g", packing*100, SolidsGravity), ""},
		{"a bucket opened", fmt.Sprintf("%g min", w.Dip.Opening), "dip: opening"},
		{"a dip", fmt.Sprintf("%g s in the glaze, %g s of handling", w.Dip.Seconds, w.Dip.Handling), "dip: seconds, dip: handling"},
	}
}
