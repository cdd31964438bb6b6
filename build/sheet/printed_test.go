package sheet

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/mark"
	"github.com/twodip/twodip/tiles/target"
)

// These tests read printed paper back with the code that reads photographs:
// what is drawn here and what is looked for there must be the same marks.

const perMM = 4.0 // pixels

// smallWall has n glazes, every single and ordered pair.
func smallWall(n int) tiles.Wall {
	w := tiles.Wall{Settings: tiles.Settings{Name: "Example", Paper: "a4", Tile: tiles.Shape{Width: 50, Height: 75}}}
	for i := range n {
		w.Glazes = append(w.Glazes, tiles.Glaze{Code: string(rune('A' + i)), Name: "Invented " + string(rune('A'+i))})
	}
	for _, a := range w.Glazes {
		for _, b := range w.Glazes {
			pair := tiles.Pair{First: a.Code, Second: b.Code}
			if a.Code == b.Code {
				pair.Second = ""
			}
			w.Tiles = append(w.Tiles, tiles.Tile{Number: tiles.Number(len(w.Tiles) + 95), Pair: pair, Status: tiles.Planned})
		}
	}
	return w
}

// rendered draws the pages of a sheet.
func rendered(t *testing.T, draw func(io.Writer, Job) (int, error), job Job) []*image.Gray {
	t.Helper()
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		if os.Getenv("TWODIP_ALL") == "1" {
			t.Fatal("pdftoppm is not installed")
		}
		t.Skip("pdftoppm is not installed")
	}
	dir := t.TempDir()
	var pdf bytes.Buffer
	pages, err := draw(&pdf, job)
	require.NoError(t, err)
	path := filepath.Join(dir, "sheet.pdf")
	require.NoError(t, os.WriteFile(path, pdf.Bytes(), 0o666))
	var out []*image.Gray
	for i := range pages {
		name := filepath.Join(dir, fmt.Sprint(i))
		page := fmt.Sprint(i + 1)
		require.NoError(t, exec.Command("pdftoppm", "-gray", "-r", fmt.Sprint(25.4*perMM), "-f", page, "-l", page, "-singlefile", path, name).Run())
		out = append(out, grayMap(t, name+".pgm"))
	}
	return out
}

func grayMap(t *testing.T, path string) *image.Gray {
	t.Helper()
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	var wide, high int
	_, err = fmt.Sscanf(string(raw[:30]), "P5\n%d %d\n", &wide, &high)
	require.NoError(t, err)
	return &image.Gray{Pix: raw[len(raw)-wide*high:], Stride: wide, Rect: image.Rect(0, 0, wide, high)}
}

func TestPrintedMatIsFound(t *testing.T) {
	w := smallWall(2)
	page := rendered(t, Mat, Job{Wall: w})[0]
	plane := mark.Gray(page)
	layout, err := target.Mat(w.Settings)
	require.NoError(t, err)
	found, _ := mark.Find(plane)
	require.Len(t, found, 4)
	for i, f := range found {
		m := layout.Marks[i]
		require.Equal(t, m.ID, f.ID)
		for c, corner := range m.Corners() {
			require.InDelta(t, corner[0], f.Quad[c].X/perMM, 0.3, "mark %d", i)
			require.InDelta(t, corner[1], f.Quad[c].Y/perMM, 0.3, "mark %d", i)
		}
	}
	_, err = mark.OnMat(plane, found, layout, 0, 0)
	require.NoError(t, err)
}

// The grid's pages, cut and joined as they say, with the eight marks glued
// around them: every tile's tag is read at its place.
func TestPrintedWallIsRead(t *testing.T) {
	w := smallWall(4)
	job := Job{Wall: w}
	board, err := target.Board(w)
	require.NoError(t, err)
	canvas := image.NewGray(image.Rect(0, 0, int(board.Width*perMM), int(board.Height*perMM)))
	draw.Draw(canvas, canvas.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	joinGrid(t, canvas, job)
	marks := rendered(t, Board, job)[0]
	cut, _ := mark.Find(mark.Gray(marks))
	require.Len(t, cut, 8)
	for _, f := range cut {
		i := f.ID - target.BoardTopLeft
		glue(canvas, marks, f.Quad[0].X/perMM, f.Quad[0].Y/perMM, board.Marks[i].Rect)
	}
	plane := mark.Gray(canvas)
	seen, _ := mark.Find(plane)
	got, err := mark.OnBoard(plane, seen, board, 0, 0)
	require.NoError(t, err)
	require.Len(t, got.Tiles, len(w.Tiles))
	for _, hung := range got.Tiles {
		require.Equal(t, hung.Place.Tile, hung.Read)
	}
}

// joinGrid lays the tiles' part of every grid page on the board, cross on cross.
func joinGrid(t *testing.T, board *image.Gray, job Job) {
	t.Helper()
	g, err := newGrid(job)
	require.NoError(t, err)
	pages := rendered(t, Grid, job)
	p := g.board.Places[0]
	left := p.Face.X - (g.board.PitchX-p.Face.W)/2 - float64(p.Column)*g.board.PitchX
	top := p.Face.Y - g.above() - float64(p.Row)*g.board.PitchY
	for row, rows := range g.down {
		for col, cols := range g.across {
			// The page's part of the wall, heads left out, in mm on the wall.
			x1, y1 := g.cols[max(cols.from, 1)], g.rows[max(rows.from, 1)]
			x2, y2 := g.cols[cols.to], g.rows[rows.to]
			to := target.Rect{X: left + x1 - g.cols[1], Y: top + y1 - g.rows[1], W: x2 - x1, H: y2 - y1}
			glue(board, pages[row*len(g.across)+col], gridSide+x1-g.cols[cols.from], gridTop+y1-g.rows[rows.from], to)
		}
	}
}

// glue copies a cutting of a page, its corner at x, y mm, to a place.
func glue(on, page *image.Gray, x, y float64, to target.Rect) {
	px := func(mm float64) int { return int(mm*perMM + 0.5) }
	dst := image.Rect(px(to.X), px(to.Y), px(to.X+to.W), px(to.Y+to.H))
	draw.Draw(on, dst, page, image.Pt(px(x), px(y)), draw.Src)
}
