package site

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"os"
	"slices"

	xdraw "golang.org/x/image/draw"

	"github.com/twodip/twodip/tiles/english"
)

// A thumbnail sheet holds the photos of a dozen rows and a dozen columns as
// they hang, each above a strip for its number: 21 requests for a wall of
// 3,600 tiles instead of 3,600.
const (
	thumbWide  = 104 // px, the photo's own square
	thumbStrip = 26  // px below it
	thumbHigh  = thumbWide + thumbStrip
)

// atlasBytes is the most a full sheet may weigh, so that the wall of 144 tiles
// stays under 300 KB with the 100 KB of everything else.
const atlasBytes = 180_000

// ground is the site's surround, #303030.
var ground = color.Gray{Y: 0x30}

// sheet is one thumbnail sheet to be made: a block's rows, some of its columns.
type sheet struct {
	rows     [][]*hung
	across   int // which dozen of columns, 0 and up
	down     int // which block, 0 and up
	pictured bool
}

// atlas is the sheet as a block shows it.
func (s sheet) atlas() Atlas {
	loading := "lazy"
	if s.down == 0 && s.across < 2 {
		loading = "eager"
	}
	return Atlas{
		Loading: loading,
		Src:     fmt.Sprintf("picture/wall-%d-%d.jpg", s.down+1, s.across+1),
		Width:   len(s.rows[0]) * thumbWide, Height: len(s.rows) * thumbHigh,
	}
}

// drawAtlases makes the thumbnail sheets and lays them under their blocks.
// Sheets without a photo are left out from the right; one that has a photo to
// its right stays, to keep the place of its columns.
func (m *maker) drawAtlases(blocks []Block, matrix [][]*hung) error {
	var all []sheet
	for down := range blocks {
		of := sheetsOf(matrix[down*side:min((down+1)*side, len(matrix))], down)
		for len(of) > 0 && !of[len(of)-1].pictured {
			of = of[:len(of)-1]
		}
		for _, s := range of {
			blocks[down].Atlases = append(blocks[down].Atlases, s.atlas())
		}
		all = append(all, of...)
	}
	return each(all, m.takeAtlas)
}

// takeAtlas takes over a sheet made before from the same pictures, or makes it.
func (m *maker) takeAtlas(s sheet) error {
	a := s.atlas()
	from, err := m.hash("wall", thumbWide, thumbHigh, atlasBytes, a.Width, a.Height, sums(s.rows))
	if err != nil {
		return err
	}
	if from != "" && m.out.reuse(a.Src, from) {
		m.shelf.use("wall-" + short(from))
		return nil
	}
	data, err := m.shelf.kept("wall", from, func() ([]byte, error) { return m.drawAtlas(s.rows, a.Width, a.Height) })
	if err != nil {
		return err
	}
	return m.out.put(a.Src, from, data)
}

// sums is the pictures of a sheet, each in its place, by their hashes.
func sums(rows [][]*hung) (all []string) {
	for _, row := range rows {
		for _, t := range row {
			if t == nil {
				all = append(all, "")
				continue
			}
			all = append(all, t.thumb.sum)
		}
	}
	return all
}

// sheetsOf cuts a block's rows into sheets.
func sheetsOf(rows [][]*hung, down int) []sheet {
	var of []sheet
	for left := 0; left < len(rows[0]); left += side {
		s := sheet{across: left / side, down: down}
		for _, row := range rows {
			part := row[left:min(left+side, len(row))]
			s.rows = append(s.rows, part)
			s.pictured = s.pictured || slices.ContainsFunc(part, func(h *hung) bool { return h != nil && h.thumb.ok() })
		}
		of = append(of, s)
	}
	return of
}

// drawAtlas draws a sheet and saves it as small as its budget asks.
func (m *maker) drawAtlas(rows [][]*hung, w, h int) ([]byte, error) {
	sheet := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(sheet, sheet.Bounds(), image.NewUniform(ground), image.Point{}, draw.Src)
	for i, row := range rows {
		for j, t := range row {
			if t == nil || !t.thumb.ok() {
				continue
			}
			at := image.Rect(0, 0, thumbWide, thumbWide).Add(image.Pt(j*thumbWide, i*thumbHigh))
			if err := thumbnail(sheet, at, t.thumb.from); err != nil {
				m.warning("tile %s is not on the wall's picture: %v", t.Number, err)
			}
		}
	}
	budget := atlasBytes * max(1, len(rows)*len(rows[0])) / (side * side)
	return encodeWithin(sheet, max(budget, 4000))
}

// thumbnail draws the middle square of a picture.
func thumbnail(onto *image.RGBA, at image.Rectangle, from string) error {
	f, err := os.Open(from)
	if err != nil {
		return err
	}
	defer f.Close()
	img, err := jpeg.Decode(f)
	if err != nil {
		return err
	}
	xdraw.BiLinear.Scale(onto, at, img, middle(img.Bounds()), draw.Src, nil)
	return nil
}

// middle is the largest square in the middle of a picture.
func middle(b image.Rectangle) image.Rectangle {
	s := min(b.Dx(), b.Dy())
	x, y := b.Min.X+(b.Dx()-s)/2, b.Min.Y+(b.Dy()-s)/2
	return image.Rect(x, y, x+s, y+s)
}

// photoView is the tile's photo for a page at root, or why there is none.
func (h *hung) photoView(root string, p picture) ([]PhotoView, string) {
	if !p.ok() {
		return nil, english.Sentence(h.waiting())
	}
	alt := fmt.Sprintf("Photo of tile %s, %s", h.Number, h.coats())
	return []PhotoView{{root + p.Src, alt, p.Width, p.Height}}, ""
}

// PhotoView is a picture on a page.
type PhotoView struct {
	Src, Alt      string
	Width, Height int
}
