package demo

import (
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// coat is a glaze's look as light, ready to paint with.
type coat struct {
	look
	base, thin, deep, spot rgb
	glass                  rgb // what light keeps on its way through it
}

func newCoat(code string, by color.Lab) coat {
	l := lookOf(code).moved(by)
	c := coat{look: l, base: light(l.base), thin: light(l.thin), deep: light(l.deep), spot: light(l.spot)}
	most := max(c.base.r, c.base.g, c.base.b)
	c.glass = mix(rgb{1, 1, 1}, c.base.times(1/most), 0.75).times(0.93)
	return c
}

// painter paints one tile.
type painter struct {
	*face
	fields *fields
	first  coat
	second coat
	melt   melt
	shift  rgb // what the melt does to the light of the overlap
	dx, dy int
	clay   rgb
	ground rgb
	scale  float32 // px of a field a mm
}

func (s *Studio) newPainter(t tiles.Tile) *painter {
	m := meltOf(t.Pair)
	by := moved(t)
	r := chance("clay", t.Number.String(), t.First, t.Second)
	p := &painter{
		face: newFace(s.shape, t.Pair, m), fields: s.fields, first: newCoat(t.First, by), melt: m,
		dx: r.IntN(fieldSize), dy: r.IntN(fieldSize),
		clay: light(lab(74+r.NormFloat64()*0.8, 5, 16)), ground: light(lab(64, 0, 0)), scale: 10,
	}
	p.shift = rgb{1, 1, 1}
	if !t.Single() {
		p.second = newCoat(t.Second, by)
		before, after := light(lab(50, 0, 0)), light(lab(50+m.shift.L, m.shift.A, m.shift.B))
		p.shift = rgb{after.r / before.r, after.g / before.g, after.b / before.b}
	}
	return p
}

// at is what is to be seen at a place and how high it stands, in units of
// about a tenth of a millimetre. Zones gather the color of the tile itself.
func (p *painter) at(u, v float32, seen *sums) (surface, float32) {
	in := p.inside(u, v)
	if in < -0.12 {
		return p.groundAt(u, v)
	}
	x, y := int(u*p.scale)+p.dx, int(v*p.scale)+p.dy
	first, second := p.firstCoat(u, v), p.secondCoat(u, v)
	c, gloss, height := p.tileAt(first, second, p.comb(u, v), in, v, x, y)
	if in > 2 {
		if zone := p.zone(first, second, 2); zone >= 0 {
			seen.add(zone, c)
		}
	}
	edge := smooth(in, -0.12, 0.12)
	if edge < 1 {
		under, _ := p.groundAt(u, v)
		c = mix(under.color, c, edge)
	}
	height += 4 * smooth(in, -0.2, 2.0) // the rounded edge of the slab
	return surface{color: c, gloss: gloss}, height
}

// groundAt is a sheet of grey card with the tile's soft shadow.
func (p *painter) groundAt(u, v float32) (surface, float32) {
	w, h := float32(p.shape.Width), float32(p.shape.Height)
	shade := 0.42 * smooth(inRounded(u-1.2, v-1.8, w, h, 4), -5.5, 1.5)
	if du, dv := u-w/2, v-holeDown; du*du+dv*dv < hole*hole {
		shade = 0.55 // the card seen through the hole
	}
	n := p.fields.grain.get(int(u*p.scale)+p.dx+300, int(v*p.scale)+p.dy+77) - 0.5
	return surface{color: p.ground.times((1 - shade) * (1 + 0.03*n))}, 0
}

// tileAt is clay, then what coats lie on it; first and second are how far the
// place is inside each coat, mm.
func (p *painter) tileAt(first, second, comb, in, v float32, x, y int) (c rgb, gloss, height float32) {
	f := p.fields
	grain := f.grain.get(x, y)
	edge := 1 - smooth(in, 0.3, 1.9) // glaze draws away from an edge
	c = p.clay.times(0.94 + 0.12*grain - 0.25*smooth(grain, 0.90, 1))
	rough := grain * 0.30
	height = comb * 2.2
	if first > -0.3 {
		t := p.thickness(&p.first, first, comb, edge, v, x, y)
		t += p.first.mottle * 1.3 * (p.uneven(p.first.flow, x, y) - 0.5)
		here := smooth(first, -0.3, 0.3)
		c = mix(c, p.first.fired(t, grain, f.cracks.get(x, y)), here)
		gloss = p.first.gloss * here
		rough *= 1 - here*(0.55+0.45*p.first.gloss)
		height += body(first, t)
	}
	if second > -0.3 {
		over, thick, here := p.over(c, first, second, comb, edge, v, grain, x, y)
		c, gloss = mix(c, over, here), gloss*(1-here)+p.second.gloss*here
		rough *= 1 - here*(0.55+0.45*p.second.gloss)
		height += body(second, thick) * here
	}
	return c, gloss, height + rough
}

// body is how high a coat stands, d mm inside its border: it rounds off there.
func body(d, t float32) float32 { return (1.2 + 0.5*t) * smooth(d, -0.3, 1.3) }

// thickness is that of a coat before its own unevenness; 1 is a full coat. A
// glaze that moves gathers lower down.
func (p *painter) thickness(c *coat, d, comb, edge, v float32, x, y int) float32 {
	pool := c.flux * 0.5 * (v/float32(p.shape.Height) - 0.45)
	return 1 + 0.45*(p.fields.broad.get(x, y)-0.5) - 0.5*comb - 0.8*edge + roll(d) + pool
}

// over is the second coat: on clay the glaze itself, on the first coat what
// the two make of each other; its thickness, and how much of it is here.
func (p *painter) over(under rgb, first, second, comb, edge, v, grain float32, x, y int) (c rgb, t, here float32) {
	f := p.fields
	border := f.cracks.get(x, y)
	x, y = x+411, y+97 // its own unevenness, not the first coat's
	t = p.thickness(&p.second, second, comb, edge, v, x, y)
	here = smooth(second, -0.3, 0.3)
	meets := smooth(first, -0.2, 0.5)
	if meets > 0 {
		t += meets * p.melt.mottle * 1.5 * (p.uneven(p.melt.flow, x, y) - 0.5)
	}
	if meets > 0 && p.melt.crawl > 0 {
		wide := p.melt.crawl * (0.15 + 0.7*f.broad.get(x*2, y*2))
		here *= 1 - meets*(1-smooth(border+0.15*(grain-0.5), wide*0.6, wide))
		t += meets * 0.35 * (1 - smooth(border, wide, wide+0.22))
	}
	if meets < 1 {
		t += (1 - meets) * p.second.mottle * 1.3 * (p.uneven(p.second.flow, x, y) - 0.5)
	}
	alone := p.second.fired(t, grain, border)
	hides := clamp(p.second.cover+(t-1)*0.55, 0.03, 0.98)
	both := mix(under.through(p.second.glass), alone, hides).through(p.shift)
	return mix(alone, both, meets), t, here
}

// uneven is where a coat lies thick or thin, clouded or drawn down the face.
func (p *painter) uneven(flow float32, x, y int) float32 {
	a, b := p.fields.mottle.get(x, y), p.fields.flow.get(x, y)
	return a + (b-a)*flow
}

// roll is the thicker rim of a coat, d mm inside its border.
func roll(d float32) float32 {
	if d < 0 || d > 2.4 {
		return 0
	}
	x := (d - 0.9) / 0.9
	return 0.4 * max(0, 1-x*x)
}

// fired is the glaze at a thickness: thin over an edge, full, or pooled.
func (c *coat) fired(t, grain, crack float32) rgb {
	var out rgb
	if t < 1 {
		out = mix(c.thin, c.base, smooth(t, 0.25, 0.95))
	} else {
		out = mix(c.base, c.deep, smooth(t, 1.02, 1.65))
	}
	if c.specks > 0 {
		out = mix(out, c.spot, 0.8*smooth(grain, 1.02-0.17*c.specks, 1.08-0.17*c.specks))
	}
	if c.crack > 0 {
		out = out.times(1 - 0.4*c.crack*(1-smooth(crack, 0.0, 0.035)))
	}
	return out
}
