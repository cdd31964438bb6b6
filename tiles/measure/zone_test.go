package measure

import (
	"testing"

	"github.com/twodip/twodip/tiles"
)

// What is read of a zone lies where the coats of that zone were dipped, and
// nowhere else, on tiles of every layout and many sizes.
func TestZonesAreReadWhereTheyWereDipped(t *testing.T) {
	for _, layout := range []tiles.Layout{tiles.LayoutWhole, tiles.LayoutEnds, tiles.LayoutSides} {
		for _, size := range [][2]float64{{40, 60}, {60, 90}, {100, 150}, {76.2, 50.8}} {
			for _, bare := range []float64{0, 12, 25} {
				for _, shares := range [][2]float64{{2. / 3, 2. / 3}, {0.55, 0.5}, {0.9, 0.4}, {1, 0.5}} {
					s := tiles.Shape{Width: size[0], Height: size[1], Bare: bare, Layout: layout}
					s.FirstDip, s.SecondDip = shares[0]*s.Glazed(), shares[1]*s.Glazed()
					for _, p := range []tiles.Pair{{First: "A"}, {First: "A", Second: "B"}} {
						held(t, s, p)
					}
				}
			}
		}
	}
}

func held(t *testing.T, s tiles.Shape, p tiles.Pair) {
	t.Helper()
	coats := s.Coats(p)
	for _, a := range areas(s, p, false) {
		for _, at := range [][2]float64{{a.u0, a.v0}, {a.u1, a.v0}, {a.u1, a.v1}, {a.u0, a.v1}} {
			x, y := at[0]*s.Width, at[1]*s.Height
			want := map[tiles.Zone][2]bool{
				tiles.ZoneFirst: {true, false}, tiles.ZoneOverlap: {true, true}, tiles.ZoneSecond: {false, true},
				tiles.ZoneWhole: {true, !p.Single()},
			}[a.zone]
			for i, c := range coats {
				in := x > c.On.X && x < c.On.X+c.On.W && y > c.On.Y && y < c.On.Y+c.On.H
				if in != want[i] {
					t.Fatalf("%+v %v: zone %s is read at %.1f, %.1f, where coat %d is %v", s, p, a.zone, x, y, i+1, in)
				}
			}
		}
	}
}
