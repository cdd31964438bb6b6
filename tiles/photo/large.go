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
	h, err := headerOf(data)
	return err == nil && h.pixels()*h.perPixel > largeBytes
}

// LongSide is a picture's longer side in pixels as its head has it; 0 where
// that says nothing, as in a HEIC.
func LongSide(data []byte) int {
	h, err := headerOf(data)
	if err != nil {
		return 0
	}
	return max(h.width, h.height)
}

// headerOf reads no more than the head; it is empty for a HEIC.
func headerOf(data []byte) (h header, err error) {
	f, err := sniff(data)
	if err != nil {
		return h, err
	}
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
	return h, err
}
