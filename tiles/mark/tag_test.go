package mark

import (
	"image"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/target"
)

// straight is a camera straight before the board, px pixels a mm.
func straight(px float64) View {
	return View{turn: [9]float64{0: 1, 4: 1, 8: 1}, shift: [3]float64{0, 0, 1000}, focal: 1000 * px}
}

// board draws marks, px pixels a mm, on a w × h mm board.
func board(w, h, px float64, marks ...target.Mark) Plane {
	g := image.NewGray(image.Rect(0, 0, int(w*px), int(h*px)))
	for i := range g.Pix {
		g.Pix[i] = 150
	}
	fill := func(r target.Rect, v uint8) {
		area := image.Rect(int(r.X*px+0.5), int(r.Y*px+0.5), int((r.X+r.W)*px+0.5), int((r.Y+r.H)*px+0.5))
		area = area.Intersect(g.Rect)
		for y := area.Min.Y; y < area.Max.Y; y++ {
			for x := area.Min.X; x < area.Max.X; x++ {
				g.Pix[g.PixOffset(x, y)] = v
			}
		}
	}
	for _, m := range marks {
		fill(m.Quiet(), 230)
		for _, r := range m.Bits.Runs() {
			c := m.Cell()
			fill(target.Rect{X: m.X + float64(r.X)*c, Y: m.Y + float64(r.Y)*c, W: float64(r.Length) * c, H: c}, 30)
		}
	}
	return Gray(g)
}

func tagAt(n tiles.Number, x, y float64) target.Place {
	return target.Place{Tile: n, Tag: target.Mark{ID: -1, Bits: target.Tag(n), Rect: target.Rect{X: x, Y: y, W: target.TagSize, H: target.TagSize}}}
}

func TestATagIsReadWhereItHangs(t *testing.T) {
	var places []target.Place
	for n := tiles.Number(1); n <= 200; n++ {
		places = append(places, tagAt(n, 30, 30))
	}
	words := planned(places)
	v := straight(4)
	hung := tagAt(17, 32, 27.5) // 2 mm right of its place, 2.5 mm up
	p := board(80, 80, 4, hung.Tag)
	got := p.tag(&v, places[16], words)
	require.Equal(t, tiles.Number(17), got.Read)
	require.False(t, got.Turned)
	require.Greater(t, got.Match, 0.9)
	require.InDelta(t, 0, got.seen.Distance(geometry.Point{X: 39 * 4, Y: 34.5 * 4}), 0.5)
	require.InDelta(t, 230.0/255, got.Paper, 0.02)

	other := p.tag(&v, places[40], words)
	require.Equal(t, tiles.Number(17), other.Read, "another tile's place: the tag says whose tile hangs there")

	turned := hung.Tag
	turned.Bits = turned.Bits.Turn().Turn()
	p = board(80, 80, 4, turned)
	got = p.tag(&v, places[16], words)
	require.Equal(t, tiles.Number(17), got.Read)
	require.True(t, got.Turned, "upside down")
}

func TestNoTagIsReadWhereNoneHangs(t *testing.T) {
	places := []target.Place{tagAt(1, 30, 30), tagAt(2, 30, 30)}
	v := straight(4)
	words := planned(places)
	require.Zero(t, board(80, 80, 4).tag(&v, places[0], words).Read, "a bare board")
	stranger := tagAt(9000, 30, 30)
	require.Zero(t, board(80, 80, 4, stranger.Tag).tag(&v, places[0], words).Read, "a tag that is not planned")
	outside := tagAt(1, 75, 75)
	require.Zero(t, board(80, 80, 4).tag(&v, outside, words).Read, "out of the picture")
}

func TestStencilsMatchThemselvesBest(t *testing.T) {
	v := straight(4)
	hung := tagAt(5, 30, 30)
	pa := board(80, 80, 4, hung.Tag).straighten(&v, hung.Tag)
	own := drawCode(target.Tag(5)).blurred(1).stencil(0)
	require.Greater(t, pa.match(own, perCell*cellsAround, perCell*cellsAround), 0.95)
	require.Less(t, pa.match(drawCode(target.Tag(6)).blurred(1).stencil(0), perCell*cellsAround, perCell*cellsAround), 0.9)
	x, y, _ := pa.best(own, perCell*cellsAround, perCell*cellsAround, perCell*cellsAround, 2)
	require.Equal(t, []int{perCell * cellsAround, perCell * cellsAround}, []int{x, y})
}
