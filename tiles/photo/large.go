package photo

import (
	"bytes"
	"image"
)

// largeBytes is the samples of 43 megapixels of JPEG at 4:2:0, or of 16 of PNG.
const largeBytes = 64 << 20

// Large says whether the picture's samples take so much memory that no other
// such picture should be opened beside it. HEIC is decoded one at a time anyway.
func Large(data []byte) bool {
	f, err := sniff(data)
	if err != nil {
		return false
	}
	var h header
	switch f {
	case formatJPEG:
		var j jpegFile
		j, err = scanJPEG(data)
		h = j.header
	case formatPNG:
		h, _, err = scanPNG(data)
	case formatTIFF, formatWebP:
		var cfg image.Config
		cfg, _, err = image.DecodeConfig(bytes.NewReader(data))
		h = header{width: cfg.Width, height: cfg.Height, perPixel: 8}
	}
	return err == nil && h.pixels()*h.perPixel > largeBytes
}
