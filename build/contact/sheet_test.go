package contact

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/run"
)

func one(name string) Photo {
	return Photo{Name: name, Notes: []string{"taken from <40> degrees aside"},
		Say: func(tiles.Number) string { return "1st <script>alert(1)</script> alone" },
		View: measure.View{Width: 400, Height: 300, JPEG: []byte{1, 2, 3},
			Faces:     []measure.Seen{{Tile: 7, Found: "marks", Outline: geometry.Box(10, 20, 110, 220), Zones: []geometry.Quad{geometry.Box(20, 30, 100, 200)}, Dropped: []byte{4}}},
			Reference: []geometry.Quad{geometry.Box(200, 20, 300, 100)}, Paper: []geometry.Quad{geometry.Box(0, 0, 5, 300)}},
		Readings: []tiles.Reading{{Tile: 7, Zone: tiles.ZoneWhole, L: 50, Doubt: 2.4, Kept: 0.9, Correction: "grey card", Found: "marks", Warning: "only half <could> be used"}}}
}

func TestSheetShowsEveryOutlineAndReading(t *testing.T) {
	var parts bytes.Buffer
	for _, name := range []string{"7.jpg", `x" onload="alert(1)/<b>.jpg`} {
		require.NoError(t, WritePart(&parts, one(name)))
	}
	var b bytes.Buffer
	require.NoError(t, Join(&b, run.SheetPage{Wall: "A wall & <more>", Page: 1, Pages: 1}, func(w io.Writer) error { _, err := parts.WriteTo(w); return err }))
	doc, err := goquery.NewDocumentFromReader(&b)
	require.NoError(t, err)
	require.Equal(t, 2, doc.Find("section").Length())
	require.Equal(t, 8, doc.Find("polygon").Length(), "face, zone, reference and paper of two photos")
	require.Equal(t, 1, doc.Find("script").Length(), "only the sheet's own script")
	require.Zero(t, doc.Find("[onload]").Length())
	require.Equal(t, `x" onload="alert(1)/<b>.jpg`, doc.Find("svg").Eq(1).AttrOr("data-photo", ""))
	first := doc.Find("section").First()
	require.Equal(t, "10.0,20.0 110.0,20.0 110.0,220.0 10.0,220.0", first.Find(`polygon[stroke="#ff0"]`).AttrOr("points", ""))
	require.Equal(t, "data:image/jpeg;base64,AQID", first.Find("image").AttrOr("href", ""))
	said := strings.Join(strings.Fields(first.Text()), " ")
	for _, want := range []string{"7 1st <script>alert(1)</script> alone", "whole", "50.0 0.0 0.0", "± 2", "grey card", "marks", "90 %", "only half <could> be used", "taken from <40> degrees aside"} {
		require.Contains(t, said, want)
	}
}

func TestASheetBeginsWithWhatMayBeOfAnotherTile(t *testing.T) {
	none := func(io.Writer) error { return nil }
	for _, doubted := range [][]string{nil, {"2 <b>.jpg, kept as tile 2: its first coat is ΔE00 31 from the other tiles of Milk"}} {
		var b bytes.Buffer
		require.NoError(t, Join(&b, run.SheetPage{Wall: "W", Page: 1, Pages: 1, Doubted: doubted}, none))
		doc, err := goquery.NewDocumentFromReader(&b)
		require.NoError(t, err)
		require.Equal(t, len(doubted), doc.Find("h2").Length())
		require.Equal(t, strings.Join(doubted, ""), doc.Find("li.note").Text())
	}
}

func TestALargeSheetHasPagesAndPicturesOfItsOwn(t *testing.T) {
	p := one("a%b é.jpg")
	p.Picture = "contact/a%2525b%20%C3%A9.jpg.jpg"
	var b bytes.Buffer
	require.NoError(t, Join(&b, run.SheetPage{Wall: "W", Page: 2, Pages: 3}, func(w io.Writer) error { return WritePart(w, p) }))
	doc, err := goquery.NewDocumentFromReader(&b)
	require.NoError(t, err)
	require.Equal(t, p.Picture, doc.Find("image").First().AttrOr("href", ""), "as given, escaped once")
	require.Equal(t, 2, doc.Find("nav").Length(), "above and below")
	require.Equal(t, "contact.html", doc.Find("nav a").First().AttrOr("href", ""))
	require.Equal(t, "2", doc.Find("nav").First().Find("[aria-current=page]").Text())
}
