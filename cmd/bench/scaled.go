package bench

import (
	"fmt"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/plan"
)

// drawings are the studio drawn to scale.
type drawings struct {
	Tile, Shelf, Labels *scaled
	Unwise              []string
}

// scaled is a picture in mm.
type scaled struct {
	Box     string // the picture's corners, as SVG's viewBox
	Wide    float64
	High    float64
	Says    string // what it shows
	Rects   []drawnRect
	Rounds  []drawnRound
	Letters []drawnLetters
}

type drawnRect struct {
	tiles.Rect
	Kind string // its class in the style
}

type drawnRound struct {
	X, Y, R float64
	Kind    string
}

type drawnLetters struct {
	X, Y, Size float64
	Text       string
}

// draw draws settings; nil where they cannot be drawn.
func draw(s tiles.Settings) *drawings {
	d := &drawings{Unwise: content.Unwise(s)}
	if !drawable(s) {
		return d
	}
	d.Tile = drawTile(s)
	d.Shelf = drawShelf(s)
	if l, err := sheet.FindLabelSheet(s); err == nil {
		d.Labels = drawLabels(s, l)
	}
	return d
}

// drawable holds sizes to what a drawing can show, and a plan of a shelf can be
// made of in no time.
func drawable(s tiles.Settings) bool {
	for _, mm := range []float64{s.Tile.Width, s.Tile.Height} {
		if !(mm >= 10 && mm <= 500) {
			return false
		}
	}
	for _, shelf := range s.Kiln.Shelves {
		if !(shelf.Width >= 50 && shelf.Width <= 3000 && shelf.Depth >= 0 && shelf.Depth <= 3000) {
			return false
		}
	}
	return s.Tile.Bare >= 0 && s.Tile.Bare <= s.Tile.Height/2 && s.Kiln.Gap >= 6 && s.Kiln.Gap <= 200 && len(s.Kiln.Shelves) <= 50
}

func newDrawing(wide, high, margin float64) *scaled {
	return &scaled{Box: fmt.Sprintf("%g %g %g %g", -margin, -margin, wide+2*margin, high+2*margin), Wide: wide + 2*margin, High: high + 2*margin}
}

func (d *scaled) rect(kind string, x, y, w, h float64) {
	d.Rects = append(d.Rects, drawnRect{tiles.Rect{X: x, Y: y, W: w, H: h}, kind})
}

func (d *scaled) write(x, y, size float64, text string) {
	d.Letters = append(d.Letters, drawnLetters{x, y, size, text})
}

// drawTile is the tile's front, dipped in two glazes, and its side with the
// foot. What the dips leave bare stays empty.
func drawTile(s tiles.Settings) *scaled {
	t := s.Tile
	side := max(t.Foot, t.Thickness)
	d := newDrawing(t.Width+20+side, t.Height+14, 4)
	pair := tiles.Pair{First: "1", Second: "2"}
	size := min(6, t.Width/10)
	for _, a := range t.Areas(pair) {
		words := map[tiles.Zone]string{tiles.ZoneFirst: "1st", tiles.ZoneOverlap: "both", tiles.ZoneSecond: "2nd", tiles.ZoneWhole: "both"}[a.Zone]
		kind := map[tiles.Zone]string{tiles.ZoneFirst: "coat-first", tiles.ZoneOverlap: "coat-both", tiles.ZoneSecond: "coat-second", tiles.ZoneWhole: "coat-both"}[a.Zone]
		d.rect(kind, a.X, a.Y, a.W, a.H)
		d.write(a.X+a.W/2, a.Y+a.H/2, size, words)
		if t.Layout == tiles.LayoutSides {
			d.write(a.X+a.W/2, t.Height+6, size*0.8, s.Units.Length(a.W))
		}
	}
	if t.Texture > 0 {
		on := t.TextureOn()
		d.rect("combed", on.X, on.Y, on.W, on.H)
	}
	if t.Bare > 0 {
		d.write(t.Width/2, t.Height-t.Bare/2, min(size, t.Bare*0.7), "bare")
	}
	d.rect("edge", 0, 0, t.Width, t.Height)
	if t.Hole > 0 {
		x, y := t.HoleAt()
		d.Rounds = append(d.Rounds, drawnRound{x, y, t.Hole / 2, "hole"})
	}
	d.rect("edge", t.Width+16, 0, t.Thickness, t.Height)
	if t.Foot > t.Thickness {
		d.rect("edge", t.Width+16, t.Height-t.Thickness, t.Foot, t.Thickness)
	}
	d.Says = "The tile from the front and from the side: " + s.Units.Lengths(t.Width, t.Height, t.Thickness) + ", " + s.Units.Length(t.Bare) + " bare."
	if z, err := t.Zones(); err == nil && t.Layout != tiles.LayoutWhole {
		d.Says += " 1st alone " + s.Units.Length(z.First) + ", both " + s.Units.Length(z.Overlap) + ", 2nd alone " + s.Units.Length(z.Second) + "."
	} else if err != nil {
		d.Says += " The dips do not meet as they should: " + err.Error() + "."
	}
	return d
}

// drawShelf is the lowest shelf from above, with as many tiles as it holds.
func drawShelf(s tiles.Settings) *scaled {
	shelves := plan.Full(s)
	if len(shelves) == 0 {
		return nil
	}
	shelf, load := shelves[0], plan.Holds(s)
	d := newDrawing(shelf.Width, shelf.Depth, 6)
	switch shelf.Shape {
	case "round":
		d.Rounds = append(d.Rounds, drawnRound{shelf.Width / 2, shelf.Depth / 2, shelf.Width / 2, "edge"})
	default:
		d.rect("edge", 0, 0, shelf.Width, shelf.Depth)
	}
	// y is counted from the shelf's front edge, which is drawn below.
	box := func(kind string, x, y, w, h float64) { d.rect(kind, x-w/2, shelf.Depth-y-h/2, w, h) }
	for _, p := range shelf.Places {
		box("stands", p.X, p.Y, p.Width, p.Depth)
	}
	for _, p := range shelf.Posts {
		box("post", p.X, p.Y, p.Side, p.Side)
	}
	for _, k := range shelf.Kept {
		box("combed", k.X, k.Y, k.Width, k.Depth)
		d.write(k.X, shelf.Depth-k.Y+shelf.Width/80, shelf.Width/40, map[string]string{"cones": "cones", "thermocouple": "TC"}[k.For])
	}
	d.Says = fmt.Sprintf("The shelf “%s” from above, its front below: %s with none that run; %s in a load of %s.", shelf.Name,
		english.Count(len(shelf.Places), "tile", "tiles"), english.Count(load, "tile", "tiles"), english.Count(len(shelves), "shelf", "shelves"))
	return d
}

// drawLabels is one page of labels; those before the first free one are empty.
func drawLabels(s tiles.Settings, l tiles.LabelSheet) *scaled {
	wide, high := l.Width, l.Height
	switch l.Paper {
	case "letter": // 8.5 × 11 in
		wide, high = 8.5*inch, 11*inch
	case "a4": // ISO 216
		wide, high = 210, 297
	}
	d := newDrawing(wide, high, 4)
	d.rect("edge", 0, 0, wide, high)
	i := 0
	for row := range l.Rows {
		for column := range l.Columns {
			i++
			kind := "coat-first"
			if i < s.Labels.Start {
				kind = "edge"
			}
			d.rect(kind, l.Left+float64(column)*l.PitchX+s.Labels.Right, l.Top+float64(row)*l.PitchY+s.Labels.Down, l.Width, l.Height)
		}
	}
	d.Says = fmt.Sprintf("A page of labels: %s of %s.", english.Count(l.Columns*l.Rows, "label", "labels"), s.Units.Lengths(l.Width, l.Height))
	return d
}
