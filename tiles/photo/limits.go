package photo

// Bounds on what is opened. A 108-megapixel phone picture passes; the samples
// of what passes fit in MaxBytes, to which a decoder adds its own buffers: measuring the largest that are let in
// took the program to 511 MB (a PNG of 83 megapixels), 212 MB for a JPEG of 108.
const (
	MaxPixels = 120_000_000
	MaxBytes  = 320 << 20 // bytes of samples while decoding
	maxSide   = 65_500
)

// header is what a picture says of itself before it is decoded.
type header struct {
	width, height int
	perPixel      float64 // bytes of samples a pixel takes while decoding
	mostPerByte   float64 // pixels one byte of file can hold at most; 0 = not known
	fileBytes     int
}

// check refuses a picture that is too large, or larger than its file can hold.
func (h header) check() error {
	switch {
	case h.width < 1 || h.height < 1:
		return refuse(doCopy, "its header gives a size of %d by %d pixels", h.width, h.height)
	case h.width > maxSide || h.height > maxSide,
		h.pixels() > MaxPixels,
		h.pixels()*h.perPixel > MaxBytes:
		return refuse(doSmall, "it is too large: %d by %d pixels", h.width, h.height)
	case h.mostPerByte > 0 && h.pixels() > h.mostPerByte*float64(h.fileBytes):
		return errCut
	}
	return nil
}

func (h header) pixels() float64 { return float64(h.width) * float64(h.height) }
