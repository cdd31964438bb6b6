package photo

import (
	"image"
)

// Top is the largest code value: 255, or 65535 in a picture of 16 bits.
func (p *Photo) Top() int {
	switch p.Image.(type) {
	case *image.Gray16, *image.NRGBA64, *image.RGBA64:
		return 65535
	}
	return 255
}

// Light is linear light, 0–1, by code value: a table a channel, red first, each
// of Top + 1 numbers. It is shared: do not write to it.
func (p *Photo) Light() *[3][]float32 { return p.light }

// Codes writes the code values of the pixels from x0 up to x1 of row y to dst:
// red, green, blue, pixel after pixel. dst must hold 3 × (x1 − x0) values.
func (p *Photo) Codes(y, x0, x1 int, dst []uint16) {
	n := x1 - x0
	dst = dst[:3*n]
	switch v := p.Image.(type) {
	case *image.YCbCr:
		codesYCbCr(v, y, x0, dst)
	case *image.Gray:
		for i, c := range v.Pix[y*v.Stride+x0:][:n] {
			dst[3*i], dst[3*i+1], dst[3*i+2] = uint16(c), uint16(c), uint16(c)
		}
	case *image.Gray16:
		row := v.Pix[y*v.Stride+2*x0:]
		for i := range n {
			c := be16(row[2*i:])
			dst[3*i], dst[3*i+1], dst[3*i+2] = c, c, c
		}
	case *image.NRGBA:
		codes8(v.Pix[y*v.Stride+4*x0:], dst)
	case *image.RGBA:
		codes8(v.Pix[y*v.Stride+4*x0:], dst)
	case *image.NRGBA64:
		codes16(v.Pix[y*v.Stride+8*x0:], dst)
	case *image.RGBA64:
		codes16(v.Pix[y*v.Stride+8*x0:], dst)
	}
}

func codes8(row []byte, dst []uint16) {
	for i := 0; i < len(dst); i += 3 {
		px := row[i/3*4:]
		dst[i], dst[i+1], dst[i+2] = uint16(px[0]), uint16(px[1]), uint16(px[2])
	}
}

func codes16(row []byte, dst []uint16) {
	for i := 0; i < len(dst); i += 3 {
		px := row[i/3*8:]
		dst[i], dst[i+1], dst[i+2] = be16(px), be16(px[2:]), be16(px[4:])
	}
}

// codesYCbCr converts with JPEG's matrix (ITU-T T.871, 7) in 16.16 fixed point,
// rounding to the nearest.
func codesYCbCr(v *image.YCbCr, y, x0 int, dst []uint16) {
	n := len(dst) / 3
	luma := v.Y[y*v.YStride+x0:][:n]
	shift := uint(0)
	switch v.SubsampleRatio {
	case image.YCbCrSubsampleRatio422, image.YCbCrSubsampleRatio420:
		shift = 1
	case image.YCbCrSubsampleRatio411, image.YCbCrSubsampleRatio410:
		shift = 2
	}
	row := v.COffset(0, y)
	first := x0 >> shift
	last := (x0+n-1)>>shift + 1
	cbs, crs := v.Cb[row+first:row+last], v.Cr[row+first:row+last]
	for i := 0; i < n; {
		c := (x0+i)>>shift - first
		cb, cr := int32(cbs[c])-128, int32(crs[c])-128
		red, green, blue := 91881*cr, -22554*cb-46802*cr, 116130*cb
		end := min(n, (c+first+1)<<shift-x0)
		for ; i < end; i++ {
			base := int32(luma[i])<<16 + 1<<15
			at := dst[3*i : 3*i+3 : 3*i+3]
			at[0], at[1], at[2] = clip(base+red), clip(base+green), clip(base+blue)
		}
	}
}

func clip(v int32) uint16 {
	v >>= 16
	if uint32(v) <= 255 {
		return uint16(v)
	}
	return uint16(^(v >> 31) & 255)
}

// Luma is a grey picture to look for shapes in: the luma plane itself where
// there is one, and otherwise (R + 2G + B) / 4. It must not be written to.
func (p *Photo) Luma() *image.Gray {
	switch v := p.Image.(type) {
	case *image.YCbCr:
		return &image.Gray{Pix: v.Y, Stride: v.YStride, Rect: v.Rect}
	case *image.Gray:
		return v
	}
	w, h, deep := p.Width(), p.Height(), p.Top() > 255
	out := image.NewGray(image.Rect(0, 0, w, h))
	row := make([]uint16, 3*w)
	for y := range h {
		p.Codes(y, 0, w, row)
		for x := range w {
			v := (uint32(row[3*x]) + 2*uint32(row[3*x+1]) + uint32(row[3*x+2])) / 4
			if deep {
				v >>= 8
			}
			out.Pix[y*out.Stride+x] = byte(v)
		}
	}
	return out
}
