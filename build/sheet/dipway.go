package sheet

import (
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/plan"
)

// dipWay is how a coat goes on some of a run's tiles.
type dipWay struct {
	title string // "Pairs"
	says  string
	coat  tiles.Coat
}

// wayTall is the height of a way's drawing, mm.
const wayTall = 30.0

// dipWays says how the coat is dipped on the run's pairs and, where there are
// any, on its singles.
func (p *paper) dipWays(r plan.Run) []dipWay {
	settings := p.job.Wall.Settings
	var pairs, singles bool
	for _, step := range r.Steps {
		for _, t := range step.Tiles() {
			pairs, singles = pairs || !t.Single(), singles || t.Single()
		}
	}
	of := func(title string, pair tiles.Pair) dipWay {
		c := settings.Tile.Coats(pair)[r.Coat-1]
		return dipWay{title, plan.CoatWay(settings, c), c}
	}
	var ways []dipWay
	if pairs {
		ways = append(ways, of("Pairs", tiles.Pair{First: "1", Second: "2"}))
	}
	if singles {
		ways = append(ways, of("Singles, marked “whole”", tiles.Pair{First: "1"}))
	}
	if len(ways) == 2 && ways[0].coat == ways[1].coat || len(ways) == 1 {
		ways = ways[:1]
		ways[0].title = "Every tile"
	}
	return ways
}

// dipWay draws a tile from its front with what the coat covers, an arrow at the
// edge that goes in first, and how deep; beside it the same in words.
func (p *paper) dipWay(a area, w dipWay) {
	shape := p.job.Wall.Settings.Tile
	const round = 6.0 // for the arrow, all round
	scale := min((a.h-2*round)/shape.Height, 22/shape.Width)
	t := area{a.x + round + 1, a.y + round, shape.Width * scale, shape.Height * scale}
	t.y = a.y + (a.h-t.h)/2
	d := p.path()
	hatch(d, area{t.x + w.coat.On.X*scale, t.y + w.coat.On.Y*scale, w.coat.On.W * scale, w.coat.On.H * scale}, 1.05, false)
	p.stroke(d, hair)
	p.tileOutline(t, scale)
	p.arrow(t, w.coat.In)
	x := t.x + t.w + round + 3
	y := a.y + 3 + small.capHeight()
	p.text(x, y, small.heavy(), w.title)
	p.para(x, y+1.5, a.x+a.w-x, small, english.Sentence(w.says))
}

// tileOutline draws a tile from its front at a scale: its edges, its hole, its
// textured strip, and a line where the bare foot begins.
func (p *paper) tileOutline(t area, scale float64) {
	shape := p.job.Wall.Settings.Tile
	if shape.Texture > 0 {
		on := shape.TextureOn()
		p.comb(area{t.x + on.X*scale, t.y + on.Y*scale, on.W * scale, on.H * scale})
	}
	if shape.Hole > 0 {
		x, y := shape.HoleAt()
		p.pdf.SetFillColor(255, 255, 255)
		p.rule(0.3)
		p.pdf.Circle(t.x+x*scale, t.y+y*scale, max(0.6, shape.Hole*scale/2), "FD")
		p.pdf.SetFillColor(0, 0, 0)
	}
	p.box(t.x, t.y, t.w, t.h, 0.3)
	if shape.Bare > 0 {
		y := t.y + t.h - shape.Bare*scale
		p.dashed(t.x, y, t.x+t.w, y, thin, 1, 0.7)
	}
}

// comb draws a textured strip as a few lines along it.
func (p *paper) comb(a area) {
	const lines = 3
	for i := range lines {
		at := (float64(i) + 0.5) / lines
		if a.w > a.h {
			p.line(a.x, a.y+at*a.h, a.x+a.w, a.y+at*a.h, 0.35)
		} else {
			p.line(a.x+at*a.w, a.y, a.x+at*a.w, a.y+a.h, 0.35)
		}
	}
}

// arrow draws an arrow that points out of a tile over the edge that goes in.
func (p *paper) arrow(t area, in tiles.Edge) {
	const long, head = 4.2, 1.4
	x, y, dx, dy := t.x+t.w/2, t.y+t.h/2, 0.0, 0.0
	switch in {
	case tiles.EdgeLeft:
		x, dx = t.x-0.8, -1
	case tiles.EdgeRight:
		x, dx = t.x+t.w+0.8, 1
	case tiles.EdgeTop:
		y, dy = t.y-0.8, -1
	case tiles.EdgeBottom:
		y, dy = t.y+t.h+0.8, 1
	}
	tipX, tipY := x+dx*long, y+dy*long
	p.line(x, y, tipX-dx*head, tipY-dy*head, thick)
	d := p.path()
	d.move(tipX, tipY)
	d.to(tipX-dx*head-dy*head*0.7, tipY-dy*head-dx*head*0.7)
	d.to(tipX-dx*head+dy*head*0.7, tipY-dy*head+dx*head*0.7)
	p.fill(d)
}
