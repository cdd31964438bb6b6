package mark

import (
	"image"
	"math"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/target"
)

// slop is how far outside its place a label is looked for, mm.
const labelSlop = 8.0

// look is a way the label's place is straightened and sharpened for a reader of
// QR codes: which one works depends on the code's size and on the blur.
type look struct {
	scale         float64 // pixels a mm
	sigma, amount float64 // of the sharpening, mm; 0 = none
}

var (
	plainLooks = []look{{10, 0, 0}, {6, 0, 0}, {16, 0, 0}}
	sharpLooks = []look{{10, 0.25, 2}, {16, 0.25, 2}, {8, 0.25, 5}, {12, 0.4, 3}, {8, 0.3, 3}, {16, 0.12, 3}, {12, 0.12, 8}, {16, 0.2, 8}, {12, 0.2, 5}}
)

// pageScale is the scale for the whole mat, where the label lies elsewhere.
const pageScale = 7.0

// Label reads the tile's number from the QR code of the label on the mat: in
// its place as it is, then by comparing it with what the wall's labels say, then
// sharpened, and at last anywhere on the page.
func (m *Mat) Label(p Plane, page target.Page, wall Printed) (tiles.Number, bool) {
	area := page.Label.Grow(labelSlop)
	quad := m.View.quad(area, 0)
	if n, ok := p.readLooks(quad, area, plainLooks); ok {
		return n, true
	}
	flat := p.flatten(quad, area.W*finderScale, area.H*finderScale)
	see := func(q geometry.Point) float64 { return p.at(m.View.See(area.X+q.X, area.Y+q.Y, 0), coded) }
	if n, ok := wall.read(finders(flat), see); ok {
		return n, true
	}
	if n, ok := p.readLooks(quad, area, sharpLooks); ok {
		return n, true
	}
	whole := target.Rect{W: page.Width, H: page.Height}
	return readCode(p.flatten(m.View.quad(whole, 0), whole.W*pageScale, whole.H*pageScale))
}

// readLooks reads the code in a part of the ground in one way after the other.
func (p Plane) readLooks(q geometry.Quad, area target.Rect, looks []look) (tiles.Number, bool) {
	for _, l := range looks {
		flat := p.flatten(q, area.W*l.scale, area.H*l.scale)
		if l.amount > 0 {
			flat = sharpened(flat, l.sigma*l.scale, l.amount)
		}
		if n, ok := readCode(flat); ok {
			return n, true
		}
	}
	return 0, false
}

// AnyLabel reads a tile's number from a QR code anywhere in a photo without
// marks. It finds fewer than Label does.
func AnyLabel(p Plane) (tiles.Number, bool) {
	for _, n := range []int{2, 3, 1} {
		small := p
		if n > 1 {
			small = p.shrink(n)
		}
		if small.W < 30 || small.H < 30 {
			continue
		}
		g := &image.Gray{Pix: small.Pix, Stride: small.Stride, Rect: image.Rect(0, 0, small.W, small.H)}
		if n, ok := readCode(g); ok {
			return n, true
		}
	}
	return 0, false
}

// flatten makes an upright picture of what a quad holds.
func (p Plane) flatten(q geometry.Quad, w, h float64) *image.Gray {
	out := image.NewGray(image.Rect(0, 0, int(math.Round(w)), int(math.Round(h))))
	m := q.Projection()
	for y := range out.Rect.Dy() {
		row := out.Pix[y*out.Stride:][:out.Rect.Dx()]
		for x := range row {
			at := m.To(geometry.Point{X: (float64(x) + 0.5) / w, Y: (float64(y) + 0.5) / h})
			row[x] = uint8(p.at(at, coded)*255 + 0.5)
		}
	}
	return out
}

// readCode looks for a QR code that names a tile, with both of the reader's
// ways to tell black from white.
func readCode(g *image.Gray) (tiles.Number, bool) {
	source := gozxing.NewLuminanceSourceFromImage(g)
	for _, b := range []gozxing.Binarizer{gozxing.NewHybridBinarizer(source), gozxing.NewGlobalHistgramBinarizer(source)} {
		if text, ok := decodeCode(b); ok {
			if n, ok := tiles.NumberFromPayload(text); ok {
				return n, true
			}
		}
	}
	return 0, false
}

// decodeCode keeps the reader's panics in: it has some on odd pictures.
func decodeCode(b gozxing.Binarizer) (text string, ok bool) {
	defer func() {
		if recover() != nil {
			text, ok = "", false
		}
	}()
	bits, err := gozxing.NewBinaryBitmap(b)
	if err != nil {
		return "", false
	}
	hints := map[gozxing.DecodeHintType]interface{}{gozxing.DecodeHintType_TRY_HARDER: true}
	r, err := qrcode.NewQRCodeReader().Decode(bits, hints)
	if err != nil {
		return "", false
	}
	return r.GetText(), true
}
