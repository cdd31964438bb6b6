package site

import (
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
)

// TileView is the page of one tile.
type TileView struct {
	Frame
	Tile      string // the number
	OtherTile string // number of the other order's tile; "" = none
	Codes     string // "QM LR", or "QM" alone
	Digits    []Digit
	Doors     []Link // where the tile leads: the other order, more like it
	Coats     Coats
	Order     Order
	Photo     []PhotoView // none or one
	NoPhoto   string
	Guess     []GuessView   // of a tile that is not fired; none or one
	Guessed   []GuessedView // what was guessed before it was fired; none or one
	Main      []Swatch      // the tile's color beside its photo; none or one
	Stack     []Coat        // as they lie: second above first
	Cautions  []string
	Colors    []ZoneView
	PartsSay  string
	Facts     []Fact
	Neighbors []Neighbor
}

// Digit is a figure of the number; 6 and 9 are underlined as on the tile's
// back, so that the two are told apart whichever way the tile is held.
type Digit struct{ Class, Text string }

// Coat is one coat of a tile.
type Coat struct {
	Nth, Name, Href, Says string
}

// Fact is a name and a value.
type Fact struct{ Name, Value string }

// Neighbor is another tile and why it stands here.
type Neighbor struct {
	Why    string
	Beside Beside
}

// Beside is a tile in a list: its color, number, coats, and a remark.
type Beside struct {
	Href   string
	Swatch []Swatch // none or one
	Number string
	Coats  Coats
	Says   string
	Marks  []string // cautions in a word or two
}

// tilePages makes a page for every tile that has a number.
func (m *maker) tilePages() error {
	return each(m.hung, func(h *hung) error {
		defer m.Tick()
		path := h.Number.PagePath()
		return m.page(path, "tile.html", m.tileView(path, h))
	})
}

func (m *maker) tileView(path string, h *hung) TileView {
	v := TileView{
		Frame:  m.frame(path, "Tile "+h.Number.String()+": "+h.coats().String(), "tile-page-body"),
		Tile:   h.Number.String(),
		Codes:  strings.TrimSpace(h.First + " " + h.Second),
		Digits: digits(h.Number.String()), Doors: m.doors(h),
		Coats: h.coats(), Order: m.order(h), Stack: m.stack(h),
		Cautions: m.cautions(h), Facts: m.facts(h), Neighbors: m.neighbors(path, h),
		PartsSay: "It breaks or mottles. Its two main colors:",
	}
	v.Guess, v.Guessed = m.guess(h.Pair), m.foretold(h)
	v.Photo, v.NoPhoto = h.photoView(v.Root, h.photo)
	v.About, v.Preview = m.preview(h)
	if o := m.other(h); o != nil {
		v.OtherTile = o.Number.String()
	}
	for _, z := range m.zones(h) {
		v.Colors = append(v.Colors, ZoneView{m.zoneWords(h, z.Zone), readingView(z.Reading), partViews(z.Reading)})
	}
	if h.read {
		v.Main = []Swatch{swatch(h.lab, h.reading.Class)}
	}
	return v
}

// preview is what a link to the tile shows in a message: its coats, color and
// cautions, and its photo where the site's address is known.
func (m *maker) preview(h *hung) (about string, picture []string) {
	said := append(nonEmpty(h.coats().String(), h.colorWords()), m.shortMarks(h)...)
	if m.Wall.Address != "" && h.thumb.ok() {
		picture = []string{strings.TrimRight(m.Wall.Address, "/") + "/" + h.thumb.Src}
	}
	return english.Sentence(strings.Join(said, "; ")), picture
}

// doors lists where the tile leads.
func (m *maker) doors(h *hung) []Link {
	n := h.Number.String()
	var ls []Link
	if o := m.other(h); o != nil {
		ls = append(ls, Link{Href: o.Number.String() + ".html", Text: "The other order"},
			Link{Href: "../compare.html#tiles=" + n + "," + o.Number.String(), Text: "Compare both orders"})
	}
	if h.read {
		ls = append(ls, Link{Href: "../index.html#near=tile+" + n, Text: "More like this tile"})
	}
	ls = append(ls, Link{Href: "../room.html#tile=" + n, Text: "For the room"})
	if place := m.placeWords(h); place != "" {
		ls = append(ls, Link{Href: "../index.html#at=" + n, Text: "On the wall: " + place})
	}
	return ls
}

// digits marks the figures that turn into each other.
func digits(number string) []Digit {
	var ds []Digit
	for _, r := range number {
		class := "plain"
		if r == '6' || r == '9' {
			class = "turns"
		}
		ds = append(ds, Digit{class, string(r)})
	}
	return ds
}

// stack lists the coats as they lie on the tile, the last one on top.
func (m *maker) stack(h *hung) []Coat {
	first := Coat{"1st", h.first.Name, "../" + glazePath(h.first.Code), "on the bisque"}
	if h.Single() {
		first.Says = "on the bisque, one coat, nothing over it"
		return []Coat{first}
	}
	second := Coat{"2nd", h.second.Name, "../" + glazePath(h.second.Code), "over it"}
	if h.Double() {
		second.Says = "over it, the same glaze again"
	}
	return []Coat{second, first}
}

// zoneWords names a zone as the reader sees it.
func (m *maker) zoneWords(h *hung, z tiles.Zone) string {
	switch z {
	case tiles.ZoneOverlap:
		return "Color where both lie"
	case tiles.ZoneFirst:
		if h.Single() {
			return "Color"
		}
		return "Color of the 1st alone"
	case tiles.ZoneSecond:
		return "Color of the 2nd alone"
	}
	return "Color"
}
