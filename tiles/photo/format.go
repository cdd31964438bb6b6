package photo

import "bytes"

// format is a kind of picture file.
type format string

const (
	formatJPEG format = "JPEG"
	formatPNG  format = "PNG"
	formatTIFF format = "TIFF"
	formatWebP format = "WebP"
	formatHEIC format = "HEIC"
)

// sniff tells the format by the first bytes; the file's name is not asked.
func sniff(data []byte) (format, error) {
	switch {
	case len(data) == 0:
		return "", refuse(doCopy, "the file is empty")
	case bytes.HasPrefix(data, []byte("\xff\xd8")):
		return formatJPEG, nil
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		return formatPNG, nil
	case bytes.HasPrefix(data, []byte("II*\x00")), bytes.HasPrefix(data, []byte("MM\x00*")):
		return formatTIFF, nil
	case len(data) >= 12 && string(data[:4]) == "RIFF" && string(data[8:12]) == "WEBP":
		return formatWebP, nil
	case len(data) >= 12 && string(data[4:8]) == "ftyp":
		return sniffBrand(data)
	}
	return "", refuse("use a JPEG, PNG, HEIC, WebP or TIFF", "it is not a picture this program knows")
}

// Known says of a file's beginning, of some hundred bytes or more, why it is no
// picture that can be opened; nil = it may be one.
func Known(head []byte) error {
	_, err := sniff(head)
	return err
}

// sniffBrand tells what an ISO base media file holds by its brands
// (ISO/IEC 14496-12, 4.3; ISO/IEC 23008-12, annex B).
func sniffBrand(data []byte) (format, error) {
	brands := data[8:min(len(data), max(16, int(be32(data))), 128)]
	for at := 0; at+4 <= len(brands); at += 4 {
		switch string(brands[at : at+4]) {
		case "heic", "heix", "heim", "heis", "mif1", "msf1":
			if !bytes.Contains(brands, []byte("avif")) {
				return formatHEIC, nil
			}
		}
	}
	if bytes.Contains(brands, []byte("avif")) {
		return "", refuse(doExport, "it is an AVIF picture, which cannot be read")
	}
	return "", refuse(doExport, "it is a film or an unknown kind of picture")
}

func be16(b []byte) uint16 { return uint16(b[0])<<8 | uint16(b[1]) }

func be32(b []byte) uint32 { return uint32(be16(b))<<16 | uint32(be16(b[2:])) }
