package photo

import (
	"bytes"
	"encoding/binary"
	"image/color"

	"golang.org/x/image/tiff"
)

// openTIFF decodes the first picture of a TIFF 6.0 file.
func openTIFF(data []byte) (picture, error) {
	cfg, err := tiff.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return picture{}, decodeError(err)
	}
	h := header{width: cfg.Width, height: cfg.Height, perPixel: 4, fileBytes: len(data)}
	switch cfg.ColorModel {
	case color.RGBA64Model, color.NRGBA64Model:
		h.perPixel = 8
	case color.CMYKModel:
		return picture{}, refuse(doExport, "it is a CMYK picture, made for printing")
	}
	if err := h.check(); err != nil {
		return picture{}, err
	}
	img, err := tiff.Decode(bytes.NewReader(data))
	if err != nil {
		return picture{}, decodeError(err)
	}
	return picture{img: img, space: space{icc: tiffICC(data)}}, nil
}

// tiffICC finds tag 34675 in the first directory (ICC.1:2022, annex B.3).
func tiffICC(data []byte) []byte {
	var order binary.ByteOrder = binary.LittleEndian
	if data[0] == 'M' {
		order = binary.BigEndian
	}
	if len(data) < 8 {
		return nil
	}
	at := int(order.Uint32(data[4:]))
	if at < 8 || at > len(data)-2 {
		return nil
	}
	count := int(order.Uint16(data[at:]))
	for i := range count {
		entry := at + 2 + 12*i
		if entry+12 > len(data) {
			return nil
		}
		if order.Uint16(data[entry:]) != 34675 {
			continue
		}
		size, from := int(order.Uint32(data[entry+4:])), int(order.Uint32(data[entry+8:]))
		if size < 0 || size > maxICC || from < 0 || from > len(data)-size {
			return nil
		}
		return data[from : from+size]
	}
	return nil
}
