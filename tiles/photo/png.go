package photo

import (
	"bytes"
	"compress/zlib"
	"image/png"
	"io"
)

// maxICC bounds a profile: those of cameras and screens are under 10 KB, those
// of printers under 3 MB.
const maxICC = 4 << 20

// openPNG decodes a PNG (W3C PNG, third edition) and notes its color chunks.
func openPNG(data []byte) (picture, error) {
	h, s, err := scanPNG(data)
	if err != nil {
		return picture{}, err
	}
	if err := h.check(); err != nil {
		return picture{}, err
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return picture{}, decodeError(err)
	}
	return picture{img: img, space: s}, nil
}

// scanPNG walks the chunks before the image data.
func scanPNG(data []byte) (h header, s space, err error) {
	for at := 8; at+12 <= len(data); {
		size := int(be32(data[at:]))
		if size < 0 || size > len(data)-at-12 {
			break
		}
		kind, body := string(data[at+4:at+8]), data[at+8:at+8+size]
		switch kind {
		case "IHDR":
			if h, err = pngHeader(body, len(data)); err != nil {
				return h, s, err
			}
		case "IDAT":
			if h.width == 0 {
				return h, s, errCut
			}
			return h, s, nil
		default:
			s.chunk(kind, body)
		}
		at += 12 + size
	}
	if h.width == 0 {
		return h, s, errCut
	}
	return h, s, h.check()
}

// pngHeader reads IHDR. The decoder gives 4 bytes a pixel to color of 8 bits,
// 8 to color of 16, and unpacks a palette or bits to a byte.
func pngHeader(body []byte, fileBytes int) (header, error) {
	if len(body) != 13 {
		return header{}, errCut
	}
	depth, kind := int(body[8]), body[9]
	channels := map[byte]int{0: 1, 2: 3, 3: 1, 4: 2, 6: 4}[kind]
	if channels == 0 || depth == 0 {
		return header{}, errCut
	}
	h := header{width: int(int32(be32(body))), height: int(int32(be32(body[4:]))), fileBytes: fileBytes}
	h.perPixel = float64(max(1, depth/8))
	if kind != 0 {
		h.perPixel *= 4
	}
	// Deflate packs at most 1032 to 1 (RFC 1951: 258 bytes in two bits).
	h.mostPerByte = 1032 * 8 / float64(channels*depth)
	return h, nil
}

// chunk notes a chunk that speaks of color.
func (s *space) chunk(kind string, body []byte) {
	switch {
	case kind == "cICP" && len(body) == 4:
		s.cicp = &cicp{primaries: int(body[0]), transfer: int(body[1]), full: body[3] == 1}
	case kind == "iCCP":
		s.icc, s.badICC = inflateICC(body)
	case kind == "sRGB":
		s.srgb = true
	case kind == "gAMA" && len(body) == 4:
		s.gamma = float64(be32(body)) / 100000
	case kind == "cHRM" && len(body) == 32:
		for i := range s.chroma {
			s.chroma[i] = float64(be32(body[4*i:])) / 100000
		}
	}
}

// inflateICC unpacks an iCCP chunk: a name, a zero, the method, the profile.
func inflateICC(body []byte) (profile []byte, bad bool) {
	name := bytes.IndexByte(body, 0)
	if name < 0 || name+2 > len(body) {
		return nil, true
	}
	r, err := zlib.NewReader(bytes.NewReader(body[name+2:]))
	if err != nil {
		return nil, true
	}
	profile, err = io.ReadAll(io.LimitReader(r, maxICC+1))
	if err != nil || len(profile) > maxICC {
		return nil, true
	}
	return profile, false
}
