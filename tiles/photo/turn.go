package photo

import "image"

// turn makes a picture stored with an EXIF orientation (JEITA CP-3451, 4.6.4:
// 1 to 8) upright. The pixels are moved, not resampled.
func turn(img image.Image, orientation int) image.Image {
	if orientation < 2 || orientation > 8 {
		return img
	}
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	t := turner{orientation}
	ow, oh := t.size(w, h)
	rect := image.Rect(0, 0, ow, oh)
	one := func(pix []byte, stride, size int) ([]byte, int) {
		return t.plane(plane{pix, stride, w, h}, size), ow * size
	}
	switch v := img.(type) {
	case *image.YCbCr:
		return t.ycbcr(v)
	case *image.Gray:
		pix, stride := one(v.Pix, v.Stride, 1)
		return &image.Gray{Pix: pix, Stride: stride, Rect: rect}
	case *image.Gray16:
		pix, stride := one(v.Pix, v.Stride, 2)
		return &image.Gray16{Pix: pix, Stride: stride, Rect: rect}
	case *image.NRGBA:
		pix, stride := one(v.Pix, v.Stride, 4)
		return &image.NRGBA{Pix: pix, Stride: stride, Rect: rect}
	case *image.RGBA:
		pix, stride := one(v.Pix, v.Stride, 4)
		return &image.RGBA{Pix: pix, Stride: stride, Rect: rect}
	case *image.NRGBA64:
		pix, stride := one(v.Pix, v.Stride, 8)
		return &image.NRGBA64{Pix: pix, Stride: stride, Rect: rect}
	case *image.RGBA64:
		pix, stride := one(v.Pix, v.Stride, 8)
		return &image.RGBA64{Pix: pix, Stride: stride, Rect: rect}
	}
	return img
}

type turner struct{ orientation int }

func (t turner) swaps() bool { return t.orientation >= 5 }

func (t turner) size(w, h int) (int, int) {
	if t.swaps() {
		return h, w
	}
	return w, h
}

// from is the stored place of upright (0, 0) and the stored steps of one pixel
// right and one pixel down, for a stored plane of w by h.
func (t turner) from(w, h int) (x0, y0, dxRight, dyRight, dxDown, dyDown int) {
	r, b := w-1, h-1
	switch t.orientation {
	case 2:
		return r, 0, -1, 0, 0, 1
	case 3:
		return r, b, -1, 0, 0, -1
	case 4:
		return 0, b, 1, 0, 0, -1
	case 5:
		return 0, 0, 0, 1, 1, 0
	case 6:
		return 0, b, 0, -1, 1, 0
	case 7:
		return r, b, 0, -1, -1, 0
	case 8:
		return r, 0, 0, 1, -1, 0
	}
	return 0, 0, 1, 0, 0, 1
}

// plane is one channel, or several interleaved, of w by h samples.
type plane struct {
	pix          []byte
	stride, w, h int
}

// plane moves the samples, of size bytes each. It goes in square blocks, so
// that a quarter turn does not touch a new cache line for every pixel.
func (t turner) plane(src plane, size int) []byte {
	ow, oh := t.size(src.w, src.h)
	out := make([]byte, ow*oh*size)
	x0, y0, dxr, dyr, dxd, dyd := t.from(src.w, src.h)
	const block = 64
	stepRight := dyr*src.stride + dxr*size
	for by := 0; by < oh; by += block {
		for bx := 0; bx < ow; bx += block {
			for y := by; y < min(by+block, oh); y++ {
				at := (y0+y*dyd+bx*dyr)*src.stride + (x0+y*dxd+bx*dxr)*size
				row := out[(y*ow+bx)*size : (y*ow+min(bx+block, ow))*size]
				moveRow(row, src.pix, at, stepRight, size)
			}
		}
	}
	return out
}

// moveRow fills row with samples taken every step bytes from at.
func moveRow(row, pix []byte, at, step, size int) {
	if size == 1 {
		for i := range row {
			row[i] = pix[at]
			at += step
		}
		return
	}
	for i := 0; i < len(row); i += size {
		copy(row[i:i+size], pix[at:at+size])
		at += step
	}
}

// ycbcr turns the three planes. Chroma halved across becomes chroma halved
// down on a quarter turn; the two rarer kinds, which the image package knows in
// one direction only, are given a sample a pixel first.
func (t turner) ycbcr(v *image.YCbCr) image.Image {
	ratio := v.SubsampleRatio
	if ratio == image.YCbCrSubsampleRatio410 || ratio == image.YCbCrSubsampleRatio411 {
		v, ratio = everyPixel(v), image.YCbCrSubsampleRatio444
	}
	cw, ch := chromaSize(v)
	flips := t.evenFlips(v)
	if !flips {
		v, ratio = everyPixel(v), image.YCbCrSubsampleRatio444
		cw, ch = chromaSize(v)
	}
	w, h := v.Rect.Dx(), v.Rect.Dy()
	ow, oh := t.size(w, h)
	ocw, _ := t.size(cw, ch)
	if t.swaps() {
		switch ratio {
		case image.YCbCrSubsampleRatio422:
			ratio = image.YCbCrSubsampleRatio440
		case image.YCbCrSubsampleRatio440:
			ratio = image.YCbCrSubsampleRatio422
		}
	}
	return &image.YCbCr{
		Y:  t.plane(plane{v.Y, v.YStride, w, h}, 1),
		Cb: t.plane(plane{v.Cb, v.CStride, cw, ch}, 1),
		Cr: t.plane(plane{v.Cr, v.CStride, cw, ch}, 1), YStride: ow, CStride: ocw,
		SubsampleRatio: ratio, Rect: image.Rect(0, 0, ow, oh),
	}
}

// evenFlips says whether chroma stays aligned with luma when the planes are
// turned: a mirrored side must hold whole chroma samples.
func (t turner) evenFlips(v *image.YCbCr) bool {
	cw, ch := chromaSize(v)
	w, h := v.Rect.Dx(), v.Rect.Dy()
	return (cw == w || w%2 == 0) && (ch == h || h%2 == 0)
}

// chromaSize is the size in samples of the chroma planes.
func chromaSize(v *image.YCbCr) (w, h int) {
	w, h = v.Rect.Dx(), v.Rect.Dy()
	switch v.SubsampleRatio {
	case image.YCbCrSubsampleRatio422:
		w = (w + 1) / 2
	case image.YCbCrSubsampleRatio420:
		w, h = (w+1)/2, (h+1)/2
	case image.YCbCrSubsampleRatio440:
		h = (h + 1) / 2
	case image.YCbCrSubsampleRatio411:
		w = (w + 3) / 4
	case image.YCbCrSubsampleRatio410:
		w, h = (w+3)/4, (h+1)/2
	}
	return w, h
}

// everyPixel gives every pixel its own chroma sample.
func everyPixel(v *image.YCbCr) *image.YCbCr {
	w, h := v.Rect.Dx(), v.Rect.Dy()
	out := &image.YCbCr{
		Y: v.Y, YStride: v.YStride, Cb: make([]byte, w*h), Cr: make([]byte, w*h), CStride: w,
		SubsampleRatio: image.YCbCrSubsampleRatio444, Rect: v.Rect,
	}
	for y := range h {
		for x := range w {
			at := v.COffset(x, y)
			out.Cb[y*w+x], out.Cr[y*w+x] = v.Cb[at], v.Cr[at]
		}
	}
	return out
}
