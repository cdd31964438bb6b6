package photo

import (
	"bytes"
	"image"
	"sync"

	"github.com/gen2brain/heic"
)

// oneHEIC lets one HEIC be decoded at a time: a decode of 12 megapixels takes
// some 290 MB.
var oneHEIC sync.Mutex

// openHEIC decodes a HEIC picture. The decoder turns it by the container's own
// rotation, so the EXIF orientation, which says the same again, is not applied.
func openHEIC(data []byte) (picture, error) {
	f, err := scanHEIF(data)
	if err != nil {
		return picture{}, err
	}
	oneHEIC.Lock()
	defer oneHEIC.Unlock()
	img, err := heic.Decode(bytes.NewReader(data))
	if err != nil {
		return picture{}, refuse(doExport, "its HEIC data cannot be decoded")
	}
	return picture{img: jfif(img, f.space.cicp), space: f.space, upright: true}, nil
}

// jfif brings samples coded by another matrix or range than JPEG's to JPEG's,
// which is what the image types mean. Phones write JPEG's own.
func jfif(img image.Image, c *cicp) image.Image {
	v, ok := img.(*image.YCbCr)
	if !ok || c == nil {
		return img
	}
	if !c.full {
		stretch(v.Y, 16, 219, 0)
		stretch(v.Cb, 128, 224, 128)
		stretch(v.Cr, 128, 224, 128)
	}
	if k, other := lumaWeights[c.matrix]; other {
		recode(v, k)
	}
	return v
}
