package photo

import (
	"image"
	"image/color"
	"image/draw"
)

// normalize makes what a decoder gives one of the types that Photo names, with
// its corner at 0, 0 and without transparency.
func normalize(img image.Image) (image.Image, error) {
	switch v := img.(type) {
	case *image.YCbCr:
		if v.Rect.Min != (image.Point{}) {
			return redraw(img), nil
		}
		return v, nil
	case *image.Gray, *image.Gray16:
		return v, nil
	case *image.NRGBA:
		fillHoles(v.Pix, 1)
		return v, nil
	case *image.RGBA:
		if v.Opaque() {
			return v, nil
		}
		return redraw(img), nil
	case *image.NRGBA64:
		fillHoles(v.Pix, 2)
		return v, nil
	case *image.RGBA64:
		if v.Opaque() {
			return v, nil
		}
		return redraw(img), nil
	case *image.CMYK:
		return nil, refuse(doExport, "it is a CMYK picture, made for printing")
	}
	return redraw(img), nil
}

// redraw copies any picture to straight 8-bit color, then fills its holes.
func redraw(img image.Image) image.Image {
	b := img.Bounds()
	out := image.NewNRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	if p, ok := img.(*image.Paletted); ok {
		unpack(out, p)
	} else {
		draw.Draw(out, out.Rect, img, b.Min, draw.Src)
	}
	fillHoles(out.Pix, 1)
	return out
}

// unpack writes a palette's colors without going through premultiplied alpha,
// which would round them.
func unpack(out *image.NRGBA, p *image.Paletted) {
	var table [256]color.NRGBA
	for i, c := range p.Palette {
		table[i&255] = color.NRGBAModel.Convert(c).(color.NRGBA)
	}
	w, h := out.Rect.Dx(), out.Rect.Dy()
	for y := range h {
		row := p.Pix[y*p.Stride:][:w]
		for x, v := range row {
			c := table[v]
			copy(out.Pix[y*out.Stride+4*x:], []byte{c.R, c.G, c.B, c.A})
		}
	}
}

// fillHoles makes pixels that are more than half transparent white: like blown
// highlights, they are then left out of every reading. The rest keep their own
// color. Samples are size bytes, four to a pixel, alpha last.
func fillHoles(pix []byte, size int) {
	step := 4 * size
	for at := 0; at+step <= len(pix); at += step {
		if pix[at+3*size] < 128 {
			for i := range step {
				pix[at+i] = 0xff
			}
		}
	}
}
