package site

import (
	"bytes"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"

	xdraw "golang.org/x/image/draw"
)

// A tile's page weighs at most 150 KB with its photo; style, script and words
// take a third of that. A photo that is heavier than photoBytes is saved again,
// a little smaller.
const (
	photoBytes = 104_000
	photoSide  = 1040 // px, the longer side of a photo saved again
	recipe     = 2    // counts the ways photos have been saved again: a new way forgets what is kept
)

// takePhoto takes a tile's large photo into the site, lighter where it must be.
func (m *maker) takePhoto(p picture) (picture, error) {
	if p.size <= photoBytes {
		return p, m.out.take(p.Src, p.from, p.sum)
	}
	from, err := m.hash("photo", recipe, photoBytes, photoSide, p.sum)
	if err != nil {
		return p, err
	}
	if from != "" && m.out.reuse(p.Src, from) {
		m.shelf.use("photo-" + short(from))
		p.Width, p.Height, err = sizeOf(filepath.Join(m.out.temp, filepath.FromSlash(p.Src)))
		return p, err
	}
	data, err := m.shelf.kept("photo", from, func() ([]byte, error) { return lighter(p.from) })
	if err != nil {
		return p, err
	}
	size, err := jpeg.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return p, err
	}
	p.Width, p.Height = size.Width, size.Height
	return p, m.out.put(p.Src, from, data)
}

// lighter saves a photo again within the budget.
func lighter(from string) ([]byte, error) {
	f, err := os.Open(from)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	img, err := jpeg.Decode(f)
	if err != nil {
		return nil, err
	}
	b := img.Bounds()
	if long := max(b.Dx(), b.Dy()); long > photoSide {
		to := image.NewRGBA(image.Rect(0, 0, b.Dx()*photoSide/long, b.Dy()*photoSide/long))
		xdraw.BiLinear.Scale(to, to.Bounds(), img, b, xdraw.Src, nil)
		img = to
	}
	return encodeWithin(img, photoBytes)
}

// encodeWithin saves as a JPEG of the best quality that fits the budget.
func encodeWithin(img image.Image, budget int) ([]byte, error) {
	var b bytes.Buffer
	for _, quality := range []int{82, 74, 66, 58, 50, 40} {
		b.Reset()
		if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: quality}); err != nil {
			return nil, err
		}
		if b.Len() <= budget {
			break
		}
	}
	return b.Bytes(), nil
}
