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

// Label is what the code of a label says.
type Label struct {
	Tile     tiles.Number
	at       geometry.Quad // its finder patterns' outline, mm on the page or pixels of the photo; zero = not known
	Mirrored bool          // the code is seen as in a mirror
}

// Label reads the tile's number from the QR code of the label on the mat: in
// its place as it is, then by comparing it with what the wall's labels say, then
// sharpened if anything there is like a code, and at last, on a mat for one tile,
// anywhere on the page.
func (m *Mat) Label(p Plane, of *Lying, wall Printed) (Label, bool) {
	area := of.label.Grow(labelSlop)
	quad := m.View.quad(area, 0)
	if l, ok := p.readLooks(quad, area, plainLooks); ok {
		return l, true
	}
	flat := p.flatten(quad, area.W*finderScale, area.H*finderScale)
	see := func(q geometry.Point) float64 { return p.at(m.View.See(area.X+q.X, area.Y+q.Y, 0), coded) }
	like := finders(flat)
	if n, ok := wall.read(like, see); ok {
		return Label{Tile: n}, true
	}
	if len(like) >= 3 { // a code has three finder patterns, and sharpening makes none
		if l, ok := p.readLooks(quad, area, sharpLooks); ok {
			return l, true
		}
	}
	if m.Beside != nil {
		return Label{}, false
	}
	whole := target.Rect{W: m.page.Width, H: m.page.Height}
	return p.readLooks(m.View.quad(whole, 0), whole, []look{{scale: pageScale}})
}

// Another looks for a second label anywhere in a photo of a mat for one tile, once
// the first was read. clear says that the first lies in its place and the second
// does not.
func (m *Mat) Another(p Plane, first Label) (second tiles.Number, clear, found bool) {
	if first.at == (geometry.Quad{}) {
		return 0, false, false // read though too soft to tell where it lies
	}
	n := max(1, int(m.View.Scale(m.page.Width/2, m.page.Height/2)/anotherScale))
	at := m.View.lifted(first.at).Scaled(1 / float64(n))
	small := p.shrink(n)
	small.whiten(at)
	other, found := readCode(small.gray())
	place := m.View.quad(m.label.Grow(labelSlop), 0).Scaled(1 / float64(n))
	return other.Tile, holdsMiddle(place, at) && !holdsMiddle(place, other.at), found
}

// holdsMiddle says that the middle of a quad lies in a place.
func holdsMiddle(place, q geometry.Quad) bool {
	forward := place.Projection()
	back := forward.Inverse()
	at := back.To(q[0].Plus(q[2]).Times(0.5))
	return at.X >= 0 && at.Y >= 0 && at.X <= 1 && at.Y <= 1
}

// anotherScale is how many pixels a millimetre it takes to read a label that lies
// out of place.
const anotherScale = 4.0

// lifted is where a quad of the page, mm, is seen.
func (v *View) lifted(q geometry.Quad) (out geometry.Quad) {
	for i, c := range q {
		out[i] = v.See(c.X, c.Y, 0)
	}
	return out
}

// readLooks reads the code in a part of the ground in one way after the other.
func (p Plane) readLooks(q geometry.Quad, area target.Rect, looks []look) (Label, bool) {
	for _, l := range looks {
		flat := p.flatten(q, area.W*l.scale, area.H*l.scale)
		if l.amount > 0 {
			flat = sharpened(flat, l.sigma*l.scale, l.amount)
		}
		if read, ok := readCode(flat); ok {
			for i, c := range read.at {
				read.at[i] = geometry.Point{X: area.X + c.X/l.scale, Y: area.Y + c.Y/l.scale}
			}
			return read, true
		}
	}
	return Label{}, false
}

// AnyLabel reads a tile's number from a QR code anywhere in a photo without
// marks. It finds fewer than Mat.Label does.
func AnyLabel(p Plane) (Label, bool) {
	for _, n := range []int{2, 3, 1} {
		small := p
		if n > 1 {
			small = p.shrink(n)
		}
		if small.W < 30 || small.H < 30 {
			continue
		}
		if l, ok := readCode(small.gray()); ok {
			return l, true
		}
	}
	return Label{}, false
}

// gray is the plane as a picture; the two share their pixels.
func (p Plane) gray() *image.Gray {
	return &image.Gray{Pix: p.Pix, Stride: p.Stride, Rect: image.Rect(0, 0, p.W, p.H)}
}

// whiten paints over what a quad of the plane holds.
func (p Plane) whiten(q geometry.Quad) {
	forward := q.Projection()
	back := forward.Inverse()
	in := q.Bounds().Intersect(image.Rect(0, 0, p.W, p.H))
	for y := in.Min.Y; y < in.Max.Y; y++ {
		for x := in.Min.X; x < in.Max.X; x++ {
			at := back.To(geometry.Point{X: float64(x) + 0.5, Y: float64(y) + 0.5})
			if at.X >= 0 && at.Y >= 0 && at.X <= 1 && at.Y <= 1 {
				p.Pix[y*p.Stride+x] = 255
			}
		}
	}
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
func readCode(g *image.Gray) (Label, bool) {
	source := gozxing.NewLuminanceSourceFromImage(g)
	for _, b := range []gozxing.Binarizer{gozxing.NewHybridBinarizer(source), gozxing.NewGlobalHistgramBinarizer(source)} {
		if text, at, ok := decodeCode(b); ok {
			if n, ok := tiles.NumberFromPayload(text); ok {
				return labelAt(n, at), true
			}
		}
	}
	return Label{}, false
}

// labelAt is a label whose three finder patterns' middles are at the bottom left,
// the top left and the top right of its code (ISO/IEC 18004): its outline is that
// of the patterns and a little more.
func labelAt(n tiles.Number, at []gozxing.ResultPoint) Label {
	out := Label{Tile: n}
	if len(at) < 3 {
		return out
	}
	point := func(i int) geometry.Point { return geometry.Point{X: at[i].GetX(), Y: at[i].GetY()} }
	left, corner, right := point(0), point(1), point(2)
	across, down := right.Minus(corner), left.Minus(corner)
	out.Mirrored = across.Cross(down) < 0
	const around = 0.5 // of the way between two patterns: 3.5 of 14 modules in the smallest code, and its quiet zone
	for i, k := range [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		middle := corner.Plus(across.Times(0.5)).Plus(down.Times(0.5))
		out.at[i] = middle.Plus(across.Times(k[0] * (0.5 + around))).Plus(down.Times(k[1] * (0.5 + around)))
	}
	if out.Mirrored {
		out.at[1], out.at[3] = out.at[3], out.at[1] // clockwise as seen
	}
	return out
}

// decodeCode keeps the reader's panics in: it has some on odd pictures.
func decodeCode(b gozxing.Binarizer) (text string, at []gozxing.ResultPoint, ok bool) {
	defer func() {
		if recover() != nil {
			text, at, ok = "", nil, false
		}
	}()
	bits, err := gozxing.NewBinaryBitmap(b)
	if err != nil {
		return "", nil, false
	}
	hints := map[gozxing.DecodeHintType]interface{}{gozxing.DecodeHintType_TRY_HARDER: true}
	r, err := qrcode.NewQRCodeReader().Decode(bits, hints)
	if err != nil {
		return "", nil, false
	}
	return r.GetText(), r.GetResultPoints(), true
}
