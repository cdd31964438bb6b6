package mark

import (
	"cmp"
	"math"
	"runtime"
	"slices"
	"sync"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/target"
)

// Board is a photo of the whole board, understood.
type Board struct {
	View  View
	Marks []Found
	Tiles []Hung  // in the order of the places
	Bowed float64 // how far the board is from flat, mm, as the tags show; 0 = flat

	places []target.Mark // of the marks seen
}

// Hung is one place on the board as it was seen.
type Hung struct {
	Place  target.Place
	Face   Quad         // outline of the tile's face
	Tag    Quad         // outline of its tag
	Read   tiles.Number // the tile whose tag hangs here; 0 = could not be read
	Match  float64      // how well the tag fits, up to 1
	Turned bool         // the tag hangs upside down
	Paper  float64      // light of the white about the tag, 0–1 as coded
}

// leastBoard is how many of the board's eight marks it takes.
const leastBoard = 4

// flat is how far, root mean square in pixels, marks may lie from where a flat
// board puts them.
const flat = 0.5

// OnBoard finds the board in a photo, and every tile on it. thick is the
// tiles' height over the board, mm. Fewer than four marks are a Few.
func OnBoard(p Plane, found []Found, b target.Hanging, thick float64, l Lens35) (Board, error) {
	mine, drawn := among(found, b.Marks)
	if len(mine) < leastBoard {
		return Board{}, Few{What: "board", Seen: len(mine), Want: leastBoard, Of: len(b.Marks)}
	}
	lens := l.lens(p.W, p.H)
	v, mine, err := solve(mine, drawn, p.W, p.H, lens)
	if err != nil {
		return Board{}, err
	}
	v, mine = p.again(v, mine, b.Marks, lens)
	out := Board{View: v, Marks: mine}
	words := planned(b.Places)
	read := p.tags(&out.View, b.Places, words)
	if out.steady(read, b, lens) {
		read = p.tags(&out.View, b.Places, words)
		out.steady(read, b, lens)
	}
	_, out.places = among(out.Marks, b.Marks)
	for i, pl := range b.Places {
		h := read[i].Hung
		h.Face = out.View.quad(pl.Face, thick)
		h.Tag = out.View.quad(pl.Tag.Rect, 0)
		out.Tiles = append(out.Tiles, h)
	}
	return out, nil
}

// planned are the tags that may hang, upright and upside down.
func planned(places []target.Place) []word {
	var out []word
	for _, pl := range places {
		out = append(out, newWord(pl.Tile, pl.Tag.Bits), newWord(-pl.Tile, pl.Tag.Bits.Turn().Turn()))
	}
	return out
}

// reading is a tag as read, and where it was seen.
type reading struct {
	Hung
	seen   Point
	anchor bool
}

// tags reads the tag of every place, on all processors.
func (p Plane) tags(v *View, places []target.Place, words []word) []reading {
	out := make([]reading, len(places))
	var wait sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for i := range next {
				out[i] = p.tag(v, places[i], words)
			}
		})
	}
	for i := range places {
		next <- i
	}
	close(next)
	wait.Wait()
	return out
}

// A tag is taken for read when it fits a planned one this well and the next
// best this much worse; the one that should hang there is believed sooner.
const (
	wellRead  = 0.8
	wellAhead = 0.22
	expected  = 0.5
	ahead     = 0.05
)

// soft are the blurs that tags are compared with, as times of blurring.
var soft = []int{1, 5, 12}

// tag reads one place.
func (p Plane) tag(v *View, pl target.Place, words []word) reading {
	out := reading{Hung: Hung{Place: pl}}
	if !v.ahead(pl.Tag.X, pl.Tag.Y) {
		return out
	}
	pa := p.straighten(v, pl.Tag)
	if !pa.inside {
		return out
	}
	x, y, _ := pa.best(border, fine*around, fine*around, fine*around, 2)
	for range 2 {
		c := pa.candidates(words, pl.Tile, x, y)
		out.Match = c.score
		if c.score < expected {
			return out
		}
		s := drawCode(c.bits).blurred(c.blur).stencil(0)
		x, y, _ = pa.best(s, x, y, 3, 1)
		if known := c.tile == pl.Tile; c.score >= wellRead && c.lead >= wellAhead || known && c.lead >= ahead {
			out.Read, out.Turned = max(c.tile, -c.tile), c.tile < 0
			dx, dy := pa.place(s, x, y)
			out.seen = v.See(pl.Tag.X+pl.Tag.W/2+dx, pl.Tag.Y+pl.Tag.H/2+dy, 0)
			out.anchor = c.score > 0.6
			out.Paper = pa.white(x, y)
		}
	}
	return out
}

// candidate is a planned tag compared with what is seen.
type candidate struct {
	word
	blur        int
	score, lead float64 // how well it fits, and how much better than the next
}

// candidates compares the few planned tags whose cells fit best, and the one
// that should hang here, with the cells as blur leaves them.
func (p *patch) candidates(words []word, here tiles.Number, x, y int) candidate {
	const few = 5
	cells := p.cellsAt(x, y)
	var list [few + 1]candidate
	for i := range words {
		c := candidate{word: words[i], score: words[i].alike(&cells)}
		if c.tile == here {
			list[few] = c
			continue
		}
		for k := range few {
			if c.score > list[k].score {
				c, list[k] = list[k], c
			}
		}
	}
	for i := range list {
		if list[i].score = -1; list[i].tile != 0 {
			p.compare(&list[i], x, y)
		}
	}
	slices.SortFunc(list[:], func(a, b candidate) int { return cmp.Compare(b.score, a.score) })
	list[0].lead = list[0].score - max(list[1].score, 0)
	return list[0]
}

// compare gives the candidate the best of its matches, cells only, over the blurs.
func (p *patch) compare(c *candidate, x, y int) {
	d, done := drawCode(c.bits), 0
	for _, times := range soft {
		d = d.blurred(times - done)
		done = times
		if m := p.match(d.stencil(2*fine), x, y); m > c.score {
			c.score, c.blur = m, times
		}
	}
}

// white is the light of the paper about the tag at a shift: the median of the
// outer ring of samples, one in from the edge.
func (p *patch) white(x, y int) float64 {
	var v []float64
	for i := 1; i < window-1; i++ {
		for _, at := range [4][2]int{{i, 1}, {i, window - 2}, {1, i}, {window - 2, i}} {
			v = append(v, float64(p.light[(y+at[1])*side+x+at[0]]))
		}
	}
	slices.Sort(v)
	return v[len(v)/2]
}

// steady fits the view again to the marks and the tags together, and bends the
// board where a flat one does not explain what is seen. It says whether tags
// should be looked for again.
func (b *Board) steady(read []reading, h target.Hanging, l lens) bool {
	as := anchors(among(b.Marks, h.Marks))
	marks := len(as)
	for _, r := range read {
		if r.anchor && r.Read == r.Place.Tile && !r.Turned {
			as = append(as, middle(r.Place.Tag.Rect, r.seen, 2))
		}
	}
	if len(as)-marks < 6 {
		return false
	}
	was := b.View
	v, err := was.fit(as, l, false)
	if err != nil {
		return false
	}
	if b.View = v; b.Bowed == 0 && v.residual(as) <= flat && was.Residual <= flat {
		return false
	}
	v.bow = bow{x: h.Width / 2, y: h.Height / 2, half: max(h.Width, h.Height) / 2, k: was.bow.k}
	bent, err := v.fit(as, l, true)
	if err != nil || bent.residual(as) > 0.8*v.residual(as) {
		return false
	}
	b.View, b.Bowed = bent, bent.bow.depth(h)
	return true
}

// depth is how far the bowed board is from the flat one through its marks, mm.
func (w *bow) depth(h target.Hanging) float64 {
	var from []Point
	var z []float64
	for i := range 9 {
		for j := range 9 {
			x, y := h.Width*float64(i)/8, h.Height*float64(j)/8
			from, z = append(from, Point{x, y}), append(z, w.at(x, y))
		}
	}
	rest := unplane(from, z)
	return slices.Max(rest) - slices.Min(rest)
}

// unplane takes the best plane off heights on a regular grid.
func unplane(at []Point, z []float64) []float64 {
	n := float64(len(at))
	var mx, my, mz, sxx, syy, sxz, syz float64
	for i, p := range at {
		mx, my, mz = mx+p.X/n, my+p.Y/n, mz+z[i]/n
	}
	for i, p := range at {
		dx, dy := p.X-mx, p.Y-my
		sxx, syy, sxz, syz = sxx+dx*dx, syy+dy*dy, sxz+dx*(z[i]-mz), syz+dy*(z[i]-mz)
	}
	out := make([]float64, len(z))
	for i, p := range at {
		out[i] = z[i] - mz - (p.X-mx)*sxz/math.Max(sxx, 1) - (p.Y-my)*syz/math.Max(syy, 1)
	}
	return out
}

// Paper is the white beside each mark's four sides, in the middle of its quiet
// zone and outwards.
func (b *Board) Paper() []Quad { return b.strips(-0.8, -0.35) }

// Ink is the black of each mark's border, in its middle.
func (b *Board) Ink() []Quad { return b.strips(0.3, 0.7) }

// strips are bands along the four sides of every mark seen, between two depths
// inside its edge, in cells.
func (b *Board) strips(from, to float64) []Quad {
	var out []Quad
	for _, m := range b.places {
		f, t := from*m.Cell(), to*m.Cell()
		long := m.W - 2*max(f, 0)
		x, y := m.X+max(f, 0), m.Y+max(f, 0)
		for _, r := range []target.Rect{
			{X: x, Y: m.Y + f, W: long, H: t - f}, {X: x, Y: m.Y + m.H - t, W: long, H: t - f},
			{X: m.X + f, Y: y, W: t - f, H: long}, {X: m.X + m.W - t, Y: y, W: t - f, H: long},
		} {
			out = append(out, b.View.quad(r, 0))
		}
	}
	return out
}
