package sheet

import (
	"fmt"
	"io"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/target"
)

// Mat writes the page a tile is photographed on: four marks, the tile's own
// outline, and a place each for its label and for the grey card or chart.
func Mat(w io.Writer, job Job) (pages int, err error) {
	page, err := target.Mat(job.Wall.Settings)
	if err != nil {
		return 0, err
	}
	return matOf(w, job, page, "Photo mat", []string{
		"Print at 100 %. The tile’s outline below must be as large as the tile.",
		"Flat, in even daylight or under one even lamp; no shadow, no shine on the tile.",
		"Tile in its outline, grey card or chart and label in theirs, all at one height.",
		"From straight above, the whole page in the picture, no flash, no filter, no zoom.",
		"Lay nothing on the marks. With its label in place the picture needs no name.",
	})
}

// MatPair writes the page that two tiles are photographed on side by side, each
// over its label: the wall's own and the one fired again.
func MatPair(w io.Writer, job Job) (pages int, err error) {
	page, err := target.PairMat(job.Wall.Settings)
	if err != nil {
		return 0, err
	}
	return matOf(w, job, page, "Photo mat for two tiles", []string{
		"Print at 100 %. Each outline below must be as large as a tile.",
		"Flat, in even daylight or under one even lamp; no shadow, no shine on the tiles.",
		"The wall’s own tile and the one fired again, each in an outline over its label.",
		"From straight above, the whole page in the picture, no flash, no filter, no zoom.",
		"Lay nothing on the marks. With both labels in place the picture needs no name.",
	})
}

// matOf draws a mat.
func matOf(w io.Writer, job Job, page target.Page, title string, howTo []string) (pages int, err error) {
	p, err := newPaper(job, size{page.Width, page.Height}, title)
	if err != nil {
		return 0, err
	}
	if err := p.page(); err != nil {
		return 0, err
	}
	p.matWords(page.Words, title, howTo)
	d := p.path()
	for _, m := range page.Marks {
		p.mark(d, m, 0, 0)
	}
	p.fill(d)
	for _, s := range page.Spots() {
		p.matPlace(s.TilePlace, "")
		p.outline(s.Tile, matTile(job.Wall.Settings.Tile.Layout))
		p.matPlace(s.Label, "the tile’s label, face up")
	}
	if page.Reference.W > 0 {
		p.matPlace(page.Reference, "grey card or color chart")
	}
	return p.write(w)
}

// matTile says how the tile lies: the zones are read from its bottom up, or
// from its left.
func matTile(l tiles.Layout) string {
	if l == tiles.LayoutSides {
		return "the tile, glazed face up, 1st glaze at the left"
	}
	return "the tile, glazed face up, its foot at the bottom"
}

// matWords is the name and the five lines of how-to, in the room between the
// upper marks.
func (p *paper) matWords(r target.Rect, title string, howTo []string) {
	p.text(r.X, r.Y+4.6, head, title)
	wide := p.width(head, title)
	p.setting(r.X+wide+3, r.Y+4.6, r.W-wide-3, small, clean(p.job.Wall.Name), "name")
	y := r.Y + 7.6
	for i, l := range howTo {
		p.text(r.X, y+small.capHeight(), small, fmt.Sprint(i+1))
		b, _ := p.onOneLine(l, small, r.W-4)
		p.text(r.X+4, y+small.capHeight(), b.style, l)
		y += 4.1
	}
}

// matPlace draws the corners of a place and says what is laid there.
func (p *paper) matPlace(r target.Rect, what string) {
	const arm = 4.0
	d := p.path()
	for i, c := range r.Corners() {
		dx, dy := arm, arm
		if i == 1 || i == 2 {
			dx = -arm
		}
		if i >= 2 {
			dy = -arm
		}
		d.move(c[0]+dx, c[1])
		d.to(c[0], c[1])
		d.to(c[0], c[1]+dy)
	}
	p.stroke(d, thin)
	if b, ok := p.onOneLine(what, small, r.W-2); ok && what != "" {
		p.textMiddle(r.X+r.W/2, r.Y+r.H/2, b.style, what)
	}
}

// outline draws a tile's own outline.
func (p *paper) outline(r target.Rect, what string) {
	p.box(r.X, r.Y, r.W, r.H, thin)
	if b, ok := p.fitWords(what, small, r.W-4, r.H/2, leastLabel); ok {
		p.blockMiddle(r.X+r.W/2, r.Y+r.H/2-b.tall()/2, b)
	}
}
