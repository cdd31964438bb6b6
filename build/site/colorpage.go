package site

import (
	"sort"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
)

// ColorView lists all measured tiles by color: what search by color is
// without a script.
type ColorView struct {
	Frame
	Lead   string
	Groups []ColorGroup
	Unread string
}

// ColorGroup is the tiles of one color family.
type ColorGroup struct {
	ID, Name string
	Count    int
	Tiles    []Beside
}

// colorPage makes color.html.
func (m *maker) colorPage() error {
	const path = "color.html"
	v := ColorView{
		Frame: m.frame(path, "Tiles by color", "color-page-body", columnsFile, "show.js"),
		Lead:  "Grouped by the color measured on each tile, light ones first. The names are those of the ISCC–NBS system; a tile whose color is not sure may stand in the next group.",
	}
	by := map[string][]*hung{}
	unread := 0
	for _, h := range m.hung {
		switch {
		case h.read && h.Own():
			by[family(h.lab)] = append(by[family(h.lab)], h)
		case h.Own() && h.Status != tiles.Skipped:
			unread++
		}
	}
	for name, hs := range by {
		v.Groups = append(v.Groups, m.colorGroup(path, name, hs))
	}
	sort.Slice(v.Groups, func(i, j int) bool { return v.Groups[i].Name < v.Groups[j].Name })
	if unread > 0 {
		v.Unread = english.Sentence(english.Count(unread, "tile has", "tiles have") + " no color yet: not fired, or not measured")
	}
	return m.page(path, "color.html", v)
}

func (m *maker) colorGroup(path, name string, hs []*hung) ColorGroup {
	sort.SliceStable(hs, func(i, j int) bool { return hs[i].lab.L > hs[j].lab.L })
	g := ColorGroup{ID: "color-" + strings.ReplaceAll(name, " ", "-"), Name: name, Count: len(hs)}
	for _, h := range hs {
		g.Tiles = append(g.Tiles, m.beside(path, h, h.colorWords()))
	}
	return g
}
