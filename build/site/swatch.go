package site

import (
	"fmt"
	"math"
	"strconv"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// Swatch is a measured color as a flat area.
type Swatch struct {
	Hex  string   // on any screen; chroma reduced where the screen cannot show it
	Wide []string // none, or the color itself for screens that show more
	Edge string   // "sure", "deep" where it is near black, or "dashed" for a reading with nothing to correct it by
}

// ReadingView is a reading: a swatch, three numbers, a name and its doubt.
type ReadingView struct {
	Swatch
	Name    string
	L, A, B string
	Doubt   string // "± 2", or that it is not known
	Bar     string // length of the doubt's bar, 0–100
	Notes   []string
}

// ZoneView is the reading of one zone.
type ZoneView struct {
	Zone    string
	Reading ReadingView
	Parts   []PartView
}

// PartView is one of the two main colors of a mottled glaze.
type PartView struct {
	Swatch Swatch
	Says   string
}

// zone is one zone of a tile and the reading that stands for it.
type zone struct {
	tiles.Reading
	lab color.Lab
}

// zones lists a tile's zones that have been read, the tile's own color first.
func (m *maker) zones(h *hung) []zone {
	var zs []zone
	for _, z := range []tiles.Zone{tiles.ZoneOverlap, tiles.ZoneWhole, tiles.ZoneFirst, tiles.ZoneSecond} {
		if r, ok := tiles.Choose(m.readings[h.Number], h.Number, z); ok {
			zs = append(zs, zone{r, labOf(r)})
		}
	}
	return zs
}

func labOf(r tiles.Reading) color.Lab { return color.Lab{L: r.L, A: r.A, B: r.B} }

// deep is the L* under which a color is lost on the dark surround, L* 20, and
// wants an outline (common practice, no source).
const deep = 26

// swatch shows a color.
func swatch(c color.Lab, class tiles.Class) Swatch {
	hex, shows := c.Hex()
	s := Swatch{Hex: hex, Edge: "sure"}
	if !shows {
		s.Wide = []string{fmt.Sprintf("lab(%.2f %.2f %.2f)", c.L, c.A, c.B)}
	}
	if c.L < deep {
		s.Edge = "deep"
	}
	if class == tiles.ClassCamera || class == "" {
		s.Edge = "dashed"
	}
	return s
}

// doubtFull is the doubt, in ΔE00, that fills the bar: beyond it a reading
// says no more than light or dark.
const doubtFull = 20

// readingView says a reading.
func readingView(r tiles.Reading) ReadingView {
	c := labOf(r)
	v := ReadingView{
		Swatch: swatch(c, r.Class), Name: colorName(c, r.Doubt),
		L: oneDecimal(r.L), A: oneDecimal(r.A), B: oneDecimal(r.B),
		Doubt: doubtWords(r.Doubt),
		Bar:   "100",
	}
	if r.Doubt > 0 {
		v.Bar = strconv.Itoa(int(math.Round(100 * math.Min(1, r.Doubt/doubtFull))))
	}
	if len(v.Wide) > 0 {
		v.Notes = append(v.Notes, "Most screens cannot show this color: the swatch is paler than the tile.")
	}
	if r.Class == tiles.ClassCamera {
		v.Notes = append(v.Notes, "Camera only: good for browsing, not for matching.")
	}
	return v
}

// oneDecimal is a number with oneDecimal decimal and a true minus sign.
func oneDecimal(v float64) string {
	v = math.Round(v*10) / 10
	if v < 0 {
		return "−" + strconv.FormatFloat(-v, 'f', 1, 64)
	}
	return strconv.FormatFloat(math.Abs(v), 'f', 1, 64)
}

// partViews says the two main colors of a mottled glaze.
func partViews(r tiles.Reading) []PartView {
	var ps []PartView
	rest := 100 // two rounded shares make up the whole
	for i, p := range r.Parts {
		share := int(math.Round(100 * p.Share))
		if i == len(r.Parts)-1 {
			share = rest
		}
		rest -= share
		c := color.Lab{L: p.L, A: p.A, B: p.B}
		ps = append(ps, PartView{swatch(c, r.Class), fmt.Sprintf("%s, %d %% of the area", colorName(c, 0), share)})
	}
	return ps
}
