package photo

import (
	"bytes"
	"encoding/binary"
	"image"

	"golang.org/x/image/webp"
)

// openWebP decodes a still WebP (RFC 9649).
func openWebP(data []byte) (picture, error) {
	cfg, err := webp.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return picture{}, decodeError(err)
	}
	h := header{width: cfg.Width, height: cfg.Height, perPixel: 4, fileBytes: len(data)}
	if err := h.check(); err != nil {
		return picture{}, err
	}
	img, err := webp.Decode(bytes.NewReader(data))
	if err != nil {
		return picture{}, decodeError(err)
	}
	return picture{img: fullRange(img), space: space{icc: webpICC(data)}}, nil
}

// webpICC finds the ICCP chunk.
func webpICC(data []byte) []byte {
	for at := 12; at+8 <= len(data); {
		size := int(binary.LittleEndian.Uint32(data[at+4:]))
		if size < 0 || size > len(data)-at-8 {
			return nil
		}
		if string(data[at:at+4]) == "ICCP" {
			return data[at+8 : at+8+size]
		}
		at += 8 + size + size%2
	}
	return nil
}

// fullRange stretches lossy WebP's samples, which run from 16 to 235 and 240
// (RFC 6386, 9.2: ITU-R BT.601), to the 0 to 255 that the image types mean.
// The decoder leaves them as they are.
func fullRange(img image.Image) image.Image {
	var planes *image.YCbCr
	switch v := img.(type) {
	case *image.YCbCr:
		planes = v
	case *image.NYCbCrA:
		planes = &v.YCbCr
	default:
		return img
	}
	stretch(planes.Y, 16, 219, 0)
	stretch(planes.Cb, 128, 224, 128)
	stretch(planes.Cr, 128, 224, 128)
	return img
}

// stretch maps samples so that span steps around from become 255 around to.
func stretch(pix []byte, from, span, to float64) {
	var table [256]byte
	for v := range table {
		table[v] = byte(min(255, max(0, (float64(v)-from)*255/span+to+0.5)))
	}
	for i, v := range pix {
		pix[i] = table[v]
	}
}
