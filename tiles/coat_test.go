package tiles_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

var (
	aSingle = tiles.Pair{First: "A"}
	aPair   = tiles.Pair{First: "A", Second: "B"}
	aDouble = tiles.Pair{First: "A", Second: "A"}
)

// everyShape is every layout in many sizes, footed and flat, with and without
// a bare strip, with dips that just meet and dips that cover nearly all.
func everyShape(see func(name string, s tiles.Shape)) {
	for _, layout := range []tiles.Layout{tiles.LayoutWhole, tiles.LayoutEnds, tiles.LayoutSides} {
		for _, size := range [][2]float64{{40, 60}, {50, 75}, {60, 90}, {100, 150}, {76.2, 50.8}, {25, 120}} {
			for _, bare := range []float64{0, 6, 12, 25} {
				s := tiles.Shape{Width: size[0], Height: size[1], Thickness: 6, Foot: 25, Bare: bare, Layout: layout}
				for _, shares := range [][2]float64{{2. / 3, 2. / 3}, {0.55, 0.5}, {0.5, 0.55}, {0.9, 0.4}, {0.34, 0.98}, {1, 0.5}, {0.5, 1}} {
					s.FirstDip, s.SecondDip = shares[0]*s.Glazed(), shares[1]*s.Glazed()
					see(fmt.Sprintf("%s %g×%g bare %g dips %.3g %.3g", layout, s.Width, s.Height, bare, s.FirstDip, s.SecondDip), s)
				}
			}
		}
	}
}

// dipped is whether a coat stays on a place of the face, found by doing it: the
// edge goes in so deep, and the foot is waxed or wiped.
func dipped(s tiles.Shape, c tiles.Coat, x, y float64) bool {
	from := map[tiles.Edge]float64{
		tiles.EdgeLeft: x, tiles.EdgeRight: s.Width - x, tiles.EdgeTop: y, tiles.EdgeBottom: s.Height - y,
	}[c.In]
	return from < c.Depth && y < s.Height-s.Bare
}

func (r rect) holds(x, y float64) bool { return x >= r.X && x < r.X+r.W && y >= r.Y && y < r.Y+r.H }

type rect tiles.Rect

// What the hand does by the words (edge and depth), what is drawn (On) and what
// is read (the zones) are the same at every place of every tile.
func TestWhatIsDippedIsWhatIsDrawnAndRead(t *testing.T) {
	everyShape(func(name string, s tiles.Shape) {
		for _, p := range []tiles.Pair{aSingle, aPair, aDouble} {
			coats, areas := s.Coats(p), s.Areas(p)
			require.Len(t, coats, map[bool]int{true: 1, false: 2}[p.Single()], name)
			const n = 31
			for i := range n * n {
				x, y := (float64(i%n)+0.503)*s.Width/n, (float64(i/n)+0.503)*s.Height/n
				on := 0
				for k, c := range coats {
					if dipped(s, c, x, y) {
						on |= 1 << k
					}
					if dipped(s, c, x, y) != rect(c.On).holds(x, y) {
						t.Fatalf("%s %v coat %d at %g, %g: %+v", name, p, k+1, x, y, c)
					}
				}
				if want, got := wantZone(on, len(areas), p), zoneAt(areas, x, y); want != got {
					t.Fatalf("%s %v at %g, %g is %q, read as %q", name, p, x, y, want, got)
				}
			}
		}
	})
}

// wantZone is the zone of a place that the coats of the mask are on.
func wantZone(on, areas int, p tiles.Pair) tiles.Zone {
	switch {
	case on == 0:
		return ""
	case areas == 1 && (p.Single() || on == 3):
		return tiles.ZoneWhole
	}
	return []tiles.Zone{1: tiles.ZoneFirst, 2: tiles.ZoneSecond, 3: tiles.ZoneOverlap}[on]
}

func zoneAt(areas []tiles.Area, x, y float64) tiles.Zone {
	for _, a := range areas {
		if rect(a.Rect).holds(x, y) {
			return a.Zone
		}
	}
	return ""
}

// The tile that was misread: 12 mm bare, dips of 52 on 78 mm of glaze, all of
// them 26 mm zones. The bottom must go in 64 mm deep, not 52.
func TestTheBareFootCountsWhenTheBottomGoesIn(t *testing.T) {
	s := tiles.Shape{Width: 60, Height: 90, Bare: 12, Layout: tiles.LayoutEnds, FirstDip: 52, SecondDip: 52}
	coats := s.Coats(aPair)
	require.Equal(t, tiles.Coat{In: tiles.EdgeBottom, Depth: 64, Bare: true, On: tiles.Rect{Y: 26, W: 60, H: 52}}, coats[0])
	require.Equal(t, tiles.Coat{In: tiles.EdgeTop, Depth: 52, On: tiles.Rect{W: 60, H: 52}}, coats[1])
	require.Equal(t, []tiles.Area{
		{Zone: tiles.ZoneFirst, Rect: tiles.Rect{Y: 52, W: 60, H: 26}},
		{Zone: tiles.ZoneOverlap, Rect: tiles.Rect{Y: 26, W: 60, H: 26}},
		{Zone: tiles.ZoneSecond, Rect: tiles.Rect{W: 60, H: 26}},
	}, s.Areas(aPair))
	require.Equal(t, 78.0, s.Coats(aSingle)[0].Depth)
}
