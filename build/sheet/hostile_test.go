package sheet_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
)

// hostile is a wall whose glazes have every kind of name a list may hold.
func hostile() tiles.Wall {
	names := []string{
		strings.Repeat("Sixty letters and more of one name ", 2)[:60],
		"Donaudampfschifffahrtsgesellschaftskapitänskajütenglasurblau",
		"Ödegård Çélàdøn Łąka ñandú",
		"Ce\u0301ladon de\u0301compose\u0301",
		"Θάλασσα του Αιγαίου",
		"Ночная баржа",
		"青磁 天目 白釉",
		"זיגוג לבן 12",
		"طلاء أزرق",
		"Sea 🌊 and 🏺",
		`100 % (cover) \ </text> & "x" <script>`,
		"tab\tnew\nline\x00\x1b[31m bad \xff\xfe utf8",
		"Z\u0310\u0311\u0312\u0313\u0314a\u0315\u0316\u0317lgo",
		"=cmd|' /C calc'!A0",
		"\u202Eright to left override",
		"\u200B\u0007",
	}
	var list []tiles.Glaze
	for i, n := range names {
		list = append(list, tiles.Glaze{Code: fmt.Sprintf("WM%d", i), Name: n, Cautions: []string{n}, Notes: n, Finish: n, Cone: "6", SG: 1.45})
	}
	w := wallOf(list)
	w.Name = "Studio </title> 🌊 " + names[1]
	return w
}

// word is a word of a page and its box, in points, as poppler sees it.
type word struct {
	XMin float64 `xml:"xMin,attr"`
	YMin float64 `xml:"yMin,attr"`
	XMax float64 `xml:"xMax,attr"`
	YMax float64 `xml:"yMax,attr"`
	Text string  `xml:",chardata"`
}

type textPage struct {
	Width  float64 `xml:"width,attr"`
	Height float64 `xml:"height,attr"`
	Words  []word  `xml:"word"`
}

// words lists the words of every page with their boxes.
func words(t *testing.T, pdf []byte) []textPage {
	t.Helper()
	need(t, "pdftotext")
	raw := outside(t, "pdftotext", "-bbox", saved(t, pdf), "-")
	d := xml.NewDecoder(strings.NewReader(raw[strings.Index(raw, "<doc>"):strings.Index(raw, "</body>")]))
	var doc struct {
		Pages []textPage `xml:"page"`
	}
	require.NoError(t, d.Decode(&doc))
	return doc.Pages
}

// Names of every kind keep inside their label, measured on the boxes that
// poppler gives every word.
func TestHostileNamesStayOnTheirLabels(t *testing.T) {
	for _, name := range sheet.LabelSheets() {
		w := hostile()
		w.Labels.Sheet = name
		s := built(t, name)
		var b bytes.Buffer
		if _, err := sheet.Labels(&b, jobOf(w)); err != nil {
			require.ErrorContains(t, err, "shorten the name, or choose a larger label", name)
			require.Less(t, s.Width*s.Height, 1000.0, "%s has room for sixty letters", name)
			continue
		}
		for n, page := range words(t, b.Bytes()) {
			for _, word := range page.Words {
				require.True(t, onALabel(s, word), "%s page %d: %q runs over its label", name, n+1, word.Text)
			}
		}
	}
}

// onALabel says whether a word's box lies in one of the sheet's labels.
func onALabel(s tiles.LabelSheet, w word) bool {
	const mm = 25.4 / 72
	column := int((w.XMin*mm - s.Left) / s.PitchX)
	row := int(((w.YMin+w.YMax)/2*mm - s.Top) / s.PitchY)
	x, y := s.Left+float64(column)*s.PitchX, s.Top+float64(row)*s.PitchY
	return w.XMin*mm >= x && w.XMax*mm <= x+s.Width && w.YMin*mm >= y-0.5 && w.YMax*mm <= y+s.Height+0.5
}

// On every sheet, no word leaves the part of the page that printers reach, and
// no two words are printed over each other.
func TestHostileNamesOnEverySheet(t *testing.T) {
	job := jobOf(placed(hostile()))
	job.Wall.Labels.Sheet = "a4-21"
	for _, s := range sheet.Sheets() {
		t.Run(s.Name, func(t *testing.T) {
			for n, page := range words(t, drawn(t, s.Draw, job)) {
				checkPage(t, n+1, page)
			}
		})
	}
}

func checkPage(t *testing.T, n int, page textPage) {
	t.Helper()
	const edge = 4 * 72 / 25.4
	for i, a := range page.Words {
		require.True(t, a.XMin >= edge && a.YMin >= edge-3 && a.XMax <= page.Width-edge && a.YMax <= page.Height-edge+3, "page %d: %q leaves the page", n, a.Text)
		for _, b := range page.Words[:i] {
			wide := min(a.XMax, b.XMax) - max(a.XMin, b.XMin)
			tall := min(a.YMax, b.YMax) - max(a.YMin, b.YMin)
			least := min(a.YMax-a.YMin, b.YMax-b.YMin)
			require.False(t, wide > 0.6 && tall > 0.3*least, "page %d: %q over %q", n, a.Text, b.Text)
		}
	}
}

func TestEverySheetTakesAnEmptyWallAndOneGlaze(t *testing.T) {
	for _, s := range sheet.Sheets() {
		for _, w := range []tiles.Wall{{}, wallOf(glazes[:1])} {
			w.Settings.Tile.Width, w.Settings.Tile.Height = 50, 75
			if _, err := s.Draw(io.Discard, jobOf(w)); err != nil {
				require.ErrorIs(t, err, sheet.ErrNothing, s.Name)
			}
		}
	}
}

func TestANameTooLongIsNamed(t *testing.T) {
	w := wallOf(append([]tiles.Glaze{{Code: "WW", Name: strings.Repeat("W", 60), Line: 7}}, glazes...))
	w.Labels.Sheet = "letter-80"
	_, err := sheet.Labels(io.Discard, jobOf(w))
	require.ErrorContains(t, err, strings.Repeat("W", 60))
	w.Glazes[0].Name = strings.Repeat("W", 200)
	_, err = sheet.Grid(io.Discard, jobOf(w))
	require.ErrorContains(t, err, "content/glazes.csv:7: the name of glaze WW")
	w = wallOf(glazes)
	w.Name = strings.Repeat("W", 200)
	_, err = sheet.Safety(io.Discard, jobOf(w))
	require.ErrorContains(t, err, "wall.yaml: name: ")
}
