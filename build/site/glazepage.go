package site

import (
	"strconv"

	"github.com/twodip/twodip/tiles"
)

// GlazeView is the page of one glaze.
type GlazeView struct {
	Frame
	Name, Code string
	Gone       string // said where the glaze is no longer mixed
	Facts      []Fact
	Cautions   []string
	Parts      []GlazePart
}

// GlazePart is the glaze alone, as first, or as second.
type GlazePart struct {
	ID, Title, Lead string
	Shown           []ShownTile
}

// ShownTile is a tile with its small photo.
type ShownTile struct {
	Href    string
	Photo   []PhotoView // none or one
	NoPhoto string
	Order   Order
	Number  string
	Coats   Coats
	Says    string
	Marks   []string // cautions in a word or two
}

// glazePages makes a page for every glaze.
func (m *maker) glazePages() error {
	return each(m.glaze, func(g tiles.Glaze) error {
		path := glazePath(g.Code)
		return m.page(path, "glaze.html", m.glazeView(path, g))
	})
}

func (m *maker) glazeView(path string, g tiles.Glaze) GlazeView {
	v := GlazeView{Frame: m.frame(path, g.Name, "glaze-page-body"), Name: g.Name, Code: g.Code, Facts: glazeFacts(g)}
	if g.Retired {
		v.Gone = "No longer mixed. Its tiles keep their numbers and stay here for reference."
	}
	v.Cautions = glazeWords(g)
	if g.Has(tiles.NeverFirst) {
		v.Cautions = append(v.Cautions, "Never first: the studio puts it under no other glaze.")
	}
	if g.Has(tiles.NeverSecond) {
		v.Cautions = append(v.Cautions, "Never second: the studio puts it over no other glaze.")
	}
	v.Parts = []GlazePart{
		{"alone", "By itself", "", nil},
		{"as-first", "As first", g.Name + " on the bisque, another glaze over it.", nil},
		{"as-second", "As second", g.Name + " over another glaze.", nil},
	}
	for _, h := range m.hung {
		if !h.Own() || !h.Has(g.Code) {
			continue
		}
		into := 1
		switch {
		case h.Single() || h.Double():
			into = 0
		case tiles.SameCode(h.Second, g.Code):
			into = 2
		}
		v.Parts[into].Shown = append(v.Parts[into].Shown, m.shown(path, h))
	}
	v.Parts = withTiles(v.Parts)
	return v
}

// withTiles leaves out what has no tile.
func withTiles(all []GlazePart) []GlazePart {
	var some []GlazePart
	for _, p := range all {
		if len(p.Shown) > 0 {
			some = append(some, p)
		}
	}
	return some
}

// shown is a tile with its small photo on a page at path.
func (m *maker) shown(path string, h *hung) ShownTile {
	b := m.beside(path, h, "")
	s := ShownTile{Href: b.Href, Order: m.order(h), Number: b.Number, Coats: b.Coats, Marks: b.Marks}
	s.Photo, s.NoPhoto = h.photoView(root(path), h.thumb)
	s.Says = h.colorWords()
	return s
}

func glazeFacts(g tiles.Glaze) []Fact {
	sg := ""
	if g.SG > 0 {
		sg = strconv.FormatFloat(g.SG, 'f', 2, 64)
	}
	var fs []Fact
	for _, f := range []Fact{
		{"Its bucket today", string(g.Bucket)}, {"Finish", g.Finish}, {"Cone", g.Cone}, {"Color, in the teacher’s words", g.Color},
		{"Specific gravity to keep", sg}, {"Shade", g.Shade}, {"Notes", g.Notes},
	} {
		if f.Value != "" {
			fs = append(fs, f)
		}
	}
	return fs
}
