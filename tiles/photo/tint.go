package photo

import "image"

// Tint is the photo's two differences of color, Cb and Cr, as grey pictures of
// its whole, often of half its size; nil where its file holds none. They must
// not be written to.
func (p *Photo) Tint() []*image.Gray {
	v, ok := p.Image.(*image.YCbCr)
	if !ok || v.Rect.Empty() || v.Rect.Min != (image.Point{}) {
		return nil
	}
	w := v.COffset(v.Rect.Dx()-1, 0) + 1
	h := v.COffset(0, v.Rect.Dy()-1)/v.CStride + 1
	part := image.Rect(0, 0, w, h)
	return []*image.Gray{{Pix: v.Cb, Stride: v.CStride, Rect: part}, {Pix: v.Cr, Stride: v.CStride, Rect: part}}
}
