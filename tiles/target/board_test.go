package target

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

// wall makes n glazes with every ordered pair; double says what the diagonal holds.
func wall(n int, diagonal tiles.Diagonal) tiles.Wall {
	w := tiles.Wall{Settings: settings("a4", 40, 80)}
	for i := range n {
		w.Glazes = append(w.Glazes, tiles.Glaze{Code: string(rune('A' + i))})
	}
	add := func(first, second string) {
		w.Tiles = append(w.Tiles, tiles.Tile{Number: tiles.Number(len(w.Tiles) + 1), Pair: tiles.Pair{First: first, Second: second}, Status: tiles.Fired})
	}
	for _, a := range w.Glazes {
		for _, b := range w.Glazes {
			if a.Code != b.Code || diagonal != tiles.DiagonalSingle {
				add(a.Code, b.Code)
			}
		}
		if diagonal != tiles.DiagonalDouble {
			add(a.Code, "")
		}
	}
	return w
}

func TestBoardHangsEveryTileClear(t *testing.T) {
	for _, d := range []tiles.Diagonal{tiles.DiagonalSingle, tiles.DiagonalDouble, tiles.DiagonalBoth} {
		w := wall(5, d)
		b, err := Board(w)
		require.NoError(t, err)
		require.Len(t, b.Places, len(w.Tiles))
		require.Len(t, b.Marks, 8)
		var taken []Rect
		for _, p := range b.Places {
			require.Equal(t, Tag(p.Tile), p.Tag.Bits)
			taken = append(taken, p.Face, p.Tag.Quiet())
		}
		for i, r := range taken {
			for _, m := range b.Marks {
				require.False(t, m.Grow(15).overlaps(r), "15 mm clear of mark %d", m.ID)
			}
			for _, q := range taken[:i] {
				require.False(t, r.overlaps(q))
			}
		}
		for _, m := range b.Marks {
			require.True(t, m.Quiet().inside(Rect{W: b.Width, H: b.Height}))
		}
	}
}

// The printed grid that the tiles hang on has heads as wide as a column at its
// left and up to 60 mm tall at its top: no mark may cover them.
func TestMarksLeaveTheGridsHeadsFree(t *testing.T) {
	for _, size := range []tiles.Board{{}, {Width: 1000, Height: 1200}} {
		w := wall(4, tiles.DiagonalSingle)
		w.Photo.Board = size
		b, err := Board(w)
		require.NoError(t, err)
		left, top := b.Width, b.Height
		for _, p := range b.Places {
			left, top = min(left, p.Face.X-(b.PitchX-p.Face.W)/2), min(top, p.Face.Y)
		}
		heads := []Rect{
			{X: left - b.PitchX, Y: top - 60, W: 5 * b.PitchX, H: 60},
			{X: left - b.PitchX, Y: top - 60, W: b.PitchX, H: 60 + 4*b.PitchY},
		}
		for _, m := range b.Marks {
			require.False(t, m.Quiet().overlaps(heads[0]) || m.Quiet().overlaps(heads[1]), "mark %d", m.ID)
		}
	}
}

func TestBoardRowsAreFirstColumnsSecond(t *testing.T) {
	w := wall(3, tiles.DiagonalSingle)
	b, err := Board(w)
	require.NoError(t, err)
	for i, p := range b.Places {
		row, _ := index(w.Glazes, w.Tiles[i].First)
		require.Equal(t, row, p.Row)
		if !w.Tiles[i].Single() {
			column, _ := index(w.Glazes, w.Tiles[i].Second)
			require.Equal(t, column, p.Column)
		}
	}
}

func TestBoardLeavesOutRetiredAndRepeats(t *testing.T) {
	w := wall(3, tiles.DiagonalSingle)
	w.Tiles[0].Status = tiles.Retired
	w.Tiles[1].Repeats = 5
	w.Tiles[2].First = "ZZ"
	b, err := Board(w)
	require.NoError(t, err)
	require.Len(t, b.Places, len(w.Tiles)-3)
}

func TestBoardRefusesSizesThatCannotBe(t *testing.T) {
	w := wall(3, tiles.DiagonalSingle)
	w.Photo.Board = tiles.Board{Width: 200, Height: 200}
	_, err := Board(w)
	require.ErrorContains(t, err, "too small")
	w.Photo.Board = tiles.Board{PitchY: 85}
	_, err = Board(w)
	require.ErrorContains(t, err, "pitch-y")
	w.Photo.Board = tiles.Board{PitchX: 39}
	_, err = Board(w)
	require.ErrorContains(t, err, "pitch-x")
	w.Settings.Tile = tiles.Shape{}
	_, err = Board(w)
	require.Error(t, err)
}
