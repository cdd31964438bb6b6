package contact

import (
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"io"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/measure"
)

//go:embed part.html
var partText string

var part = template.Must(template.New("part").Parse(partText))

// Photo is one photo's part of the sheet.
type Photo struct {
	Name     string // below tiles/photos
	View     measure.View
	Readings []tiles.Reading
	Notes    []string
	Say      func(tiles.Number) string // a tile's pair in words; nil = not said
	Picture  string                    // the address of View.JPEG's file beside the sheet; "" = it is in the part itself
}

// WritePart writes a photo's part as HTML.
func WritePart(w io.Writer, p Photo) error {
	return part.Execute(w, p.page())
}

// page is what the template shows.
type page struct {
	Name             string
	Picture          template.URL
	Width, Height    int
	Line, Letter     float64 // widths on the picture, in its pixels
	Faces            []face
	Reference, Paper []string
	Rows             []row
	Notes            []string
	Tiles            int
}

type face struct {
	Tile           tiles.Number
	Found          string
	Outline        string
	X, Y           float64 // where the number is written
	Zones          []string
	Mask           template.URL
	MX, MY, MW, MH int
}

type row struct {
	Tile                        tiles.Number
	Pair, Zone, Hex, Lab, Doubt string
	Class, Found, Kept, Warning string
}

func (p Photo) page() page {
	v := p.View
	picture := p.Picture
	if picture == "" {
		picture = data("image/jpeg", v.JPEG)
	}
	out := page{Name: p.Name, Picture: template.URL(picture), Width: v.Width, Height: v.Height, Notes: p.Notes, Tiles: len(v.Faces)}
	out.Line = float64(max(v.Width, v.Height)) / 320
	out.Letter = 14 * out.Line
	if len(v.Faces) > 1 {
		out.Line, out.Letter = out.Line/4, 3*out.Line
	}
	for _, q := range v.Reference {
		out.Reference = append(out.Reference, points(q))
	}
	for _, q := range v.Paper {
		out.Paper = append(out.Paper, points(q))
	}
	for _, s := range v.Faces {
		out.Faces = append(out.Faces, newFace(s))
	}
	for _, r := range p.Readings {
		out.Rows = append(out.Rows, p.row(r))
	}
	return out
}

func newFace(s measure.Seen) face {
	f := face{Tile: s.Tile, Found: s.Found, Outline: points(s.Outline)}
	for _, c := range s.Outline {
		f.X, f.Y = f.X+c.X/4, f.Y+c.Y/4
	}
	for _, z := range s.Zones {
		f.Zones = append(f.Zones, points(z))
	}
	if s.Dropped != nil {
		f.Mask = template.URL(data("image/png", s.Dropped))
		f.MX, f.MY, f.MW, f.MH = s.At.Min.X, s.At.Min.Y, s.At.Dx(), s.At.Dy()
	}
	return f
}

func (p Photo) row(r tiles.Reading) row {
	lab := color.Lab{L: r.L, A: r.A, B: r.B}
	hex, _ := lab.Hex()
	out := row{Tile: r.Tile, Zone: string(r.Zone), Hex: hex, Lab: fmt.Sprintf("%.1f %.1f %.1f", r.L, r.A, r.B),
		Class: r.Correction, Found: r.Found, Kept: fmt.Sprintf("%.0f %%", 100*r.Kept), Warning: r.Warning}
	if r.Doubt > 0 {
		out.Doubt = fmt.Sprintf("± %.0f", r.Doubt)
	}
	if p.Say != nil {
		out.Pair = p.Say(r.Tile)
	}
	return out
}

func data(kind string, b []byte) string {
	return "data:" + kind + ";base64," + base64.StdEncoding.EncodeToString(b)
}

func points(q geometry.Quad) string {
	var b strings.Builder
	for _, p := range q {
		fmt.Fprintf(&b, "%.1f,%.1f ", p.X, p.Y)
	}
	return strings.TrimSpace(b.String())
}
