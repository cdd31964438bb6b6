package photo

import (
	"bytes"
	"image/jpeg"
)

// jpegFile is what the segments of a JPEG say (ITU-T T.81, annex B; ICC.1:2022,
// annex B.4).
type jpegFile struct {
	header
	icc    []byte
	badICC bool
}

const (
	markEOI  = 0xd9
	markSOS  = 0xda
	markAPP2 = 0xe2
)

// openJPEG decodes the first picture of the file. Phones append further ones
// (a gain map, a preview): they are not looked at.
func openJPEG(data []byte) (picture, error) {
	f, err := scanJPEG(data)
	if err != nil {
		return picture{}, err
	}
	img, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		return picture{}, decodeError(err)
	}
	return picture{img: img, space: space{icc: f.icc, badICC: f.badICC}}, nil
}

// scanJPEG walks the segments up to the first scan.
func scanJPEG(data []byte) (jpegFile, error) {
	f := jpegFile{header: header{fileBytes: len(data)}}
	var chunks iccChunks
	for at := 2; ; {
		mark, body, next := segment(data, at)
		if next == 0 {
			return f, errCut
		}
		at = next
		switch {
		case isFrame(mark):
			if err := f.frame(mark, body); err != nil {
				return f, err
			}
		case mark == markAPP2:
			chunks.add(body)
		case mark == markSOS || mark == markEOI:
			f.icc, f.badICC = chunks.join()
			if f.width == 0 {
				return f, errCut
			}
			return f, nil
		}
	}
}

// segment returns the marker at or after the offset, what belongs to it and
// where the next one may begin; next is 0 at the end of the data.
func segment(data []byte, at int) (mark byte, body []byte, next int) {
	for at+1 < len(data) && (data[at] != 0xff || data[at+1] == 0xff || data[at+1] == 0) {
		at++
	}
	if at+1 >= len(data) {
		return 0, nil, 0
	}
	mark = data[at+1]
	if mark == markEOI || mark == 0x01 || 0xd0 <= mark && mark <= 0xd8 {
		return mark, nil, at + 2
	}
	if at+4 > len(data) {
		return 0, nil, 0
	}
	size := int(be16(data[at+2:]))
	if size < 2 || at+2+size > len(data) {
		return 0, nil, 0
	}
	return mark, data[at+4 : at+2+size], at + 2 + size
}

// isFrame says whether the marker begins a frame: SOF0 to SOF15 without the
// three others that share their range.
func isFrame(mark byte) bool {
	return 0xc0 <= mark && mark <= 0xcf && mark != 0xc4 && mark != 0xc8 && mark != 0xcc
}

// frame reads a frame header and checks the size it gives.
func (f *jpegFile) frame(mark byte, body []byte) error {
	if len(body) < 6 || len(body) < 6+3*int(body[5]) {
		return errCut
	}
	f.height, f.width = int(be16(body[1:])), int(be16(body[3:]))
	parts := int(body[5])
	switch {
	case parts == 4:
		return refuse(doExport, "it is a CMYK picture, made for printing")
	case mark > 0xc2:
		return refuse(doExport, "it is a lossless or arithmetic JPEG, which cannot be read")
	case body[0] != 8:
		return refuse(doExport, "it is a JPEG of %d bits, which cannot be read", body[0])
	}
	f.perPixel, f.mostPerByte = jpegCost(body, parts, mark == 0xc2), 1024
	return f.check()
}

// jpegCost is the bytes a pixel takes in the standard decoder: one a sample,
// and four more for the coefficients of a progressive picture.
func jpegCost(body []byte, parts int, progressive bool) float64 {
	var sum, most float64
	for i := range parts {
		sampling := body[7+3*i]
		area := float64(sampling>>4) * float64(sampling&15)
		sum += area
		most = max(most, area)
	}
	if most == 0 {
		return 1
	}
	cost := sum / most
	if progressive {
		cost *= 5
	}
	return cost
}

// iccChunks gathers a profile split over segments, in any order.
type iccChunks struct {
	parts map[byte][]byte
	total byte
	bad   bool
}

func (c *iccChunks) add(body []byte) {
	rest, ok := bytes.CutPrefix(body, []byte("ICC_PROFILE\x00"))
	if !ok {
		return
	}
	if len(rest) < 2 || c.total != 0 && rest[1] != c.total {
		c.bad = true
		return
	}
	if c.parts == nil {
		c.parts = map[byte][]byte{}
	}
	c.total = rest[1]
	c.parts[rest[0]] = rest[2:]
}

// join returns the whole profile; bad says that parts of one are missing.
func (c *iccChunks) join() (profile []byte, bad bool) {
	if c.parts == nil {
		return nil, c.bad
	}
	for i := 1; i <= int(c.total); i++ {
		part, ok := c.parts[byte(i)]
		if !ok {
			return nil, true
		}
		profile = append(profile, part...)
	}
	return profile, c.bad || len(profile) == 0
}
