package photo

import (
	"bytes"
	"image"
	"image/jpeg"
)

// Small is a reduced picture of a photo or of a part of it: upright, in sRGB,
// fit to be published.
type Small struct{ *image.YCbCr }

// quality of published JPEGs: at 1280 px they come to some 150 kB.
const quality = 82

// Small reduces a part of the photo, in upright pixels, so that its longer side
// is longest pixels; a part that is smaller stays as it is, and one that lies
// off the picture is the picture's nearest corner. Colors of a wider profile are
// converted to sRGB, clipped where sRGB ends.
func (p *Photo) Small(part image.Rectangle, longest int) Small {
	part = inside(part, p.Image.Bounds())
	w, h := fit(part.Dx(), part.Dy(), longest)
	if v, ok := p.Image.(*image.YCbCr); ok {
		s := Small{shrinkYCbCr(crop(v, part), w, h)}
		if !p.Profile.isSRGB() {
			s.toSRGB(&p.Profile)
		}
		return s
	}
	rgb := p.shrinkRGB(part, w, h)
	if !p.Profile.isSRGB() {
		newConverter(&p.Profile).planes(&rgb)
	}
	return Small{fromRGB(&rgb, w, h)}
}

// inside is what of a part lies in the picture: a pixel of it at least.
func inside(part, picture image.Rectangle) image.Rectangle {
	if in := part.Intersect(picture); !in.Empty() {
		return in
	}
	x := min(max(part.Min.X, picture.Min.X), picture.Max.X-1)
	y := min(max(part.Min.Y, picture.Min.Y), picture.Max.Y-1)
	return image.Rect(x, y, x+1, y+1)
}

// Small reduces further.
func (s Small) Small(longest int) Small {
	w, h := fit(s.Rect.Dx(), s.Rect.Dy(), longest)
	return Small{shrinkYCbCr(s.YCbCr, w, h)}
}

// JPEG is the picture as a JPEG that holds nothing but the picture: no EXIF, no
// place, no camera, no profile (it is sRGB). It takes at most so many bytes,
// where saving it a little less finely, or smaller, can do that; most 0 is as
// many as it takes.
func (s Small) JPEG(most int) ([]byte, error) {
	data, err := s.saved(quality)
	if err != nil || most <= 0 || len(data) <= most {
		return data, err
	}
	// Most of what is a little too heavy fits at the next quality; of what is
	// far too heavy a smaller picture is the better one.
	if need := float64(most) / float64(len(data)); need < nextQuality {
		s = s.Small(max(s.Rect.Dx(), s.Rect.Dy()) * 13 / 16)
	}
	for _, q := range []int{74, 66, 58, 50, 40} {
		if data, err = s.saved(q); err != nil || len(data) <= most {
			break
		}
	}
	return data, err
}

// nextQuality is the least that a photo at quality 74 takes of what it does at
// 82: 0.75 to 0.83 for the pictures of ../shared/photos.
const nextQuality = 0.75

func (s Small) saved(q int) ([]byte, error) {
	var b bytes.Buffer
	err := jpeg.Encode(&b, s.YCbCr, &jpeg.Options{Quality: q})
	return b.Bytes(), err
}

// fit is the size with its longer side brought down to longest.
func fit(w, h, longest int) (int, int) {
	if most := max(w, h); most > longest {
		w = max(1, (w*longest+most/2)/most)
		h = max(1, (h*longest+most/2)/most)
	}
	return w, h
}

// crop takes a part out; its corner moves to whole chroma samples.
func crop(v *image.YCbCr, part image.Rectangle) *image.YCbCr {
	if part == v.Rect {
		return v
	}
	part.Min.X &^= 3
	part.Min.Y &^= 1
	c := *v.SubImage(part).(*image.YCbCr)
	c.Rect = c.Rect.Sub(part.Min)
	return &c
}

// shrinkYCbCr reduces each plane on its own; chroma comes out at half size.
func shrinkYCbCr(v *image.YCbCr, w, h int) *image.YCbCr {
	out := image.NewYCbCr(image.Rect(0, 0, w, h), image.YCbCrSubsampleRatio420)
	cw, ch := chromaSize(v)
	ow, oh := chromaSize(out)
	shrink(plane{v.Y, v.YStride, v.Rect.Dx(), v.Rect.Dy()}, plane{out.Y, out.YStride, w, h})
	shrink(plane{v.Cb, v.CStride, cw, ch}, plane{out.Cb, out.CStride, ow, oh})
	shrink(plane{v.Cr, v.CStride, cw, ch}, plane{out.Cr, out.CStride, ow, oh})
	return out
}

// shrinkRGB reduces a picture that does not come as luma and chroma. Full-size
// planes are never made: rows are averaged as they are read.
func (p *Photo) shrinkRGB(part image.Rectangle, w, h int) [3]plane {
	kx, ky := part.Dx()/w, part.Dy()/h
	shift := 0
	if p.Top() > 255 {
		shift = 8
	}
	bw, bh := part.Dx()/kx, part.Dy()/ky
	var band, boxed, out [3]plane
	for c := range 3 {
		band[c] = newPlane(part.Dx(), ky)
		boxed[c] = newPlane(bw, bh)
		out[c] = newPlane(w, h)
	}
	codes := make([]uint16, 3*part.Dx())
	for by := range bh {
		for y := range ky {
			p.Codes(part.Min.Y+by*ky+y, part.Min.X, part.Max.X, codes)
			for x := range part.Dx() {
				for c := range 3 {
					band[c].pix[y*band[c].stride+x] = byte(codes[3*x+c] >> shift)
				}
			}
		}
		for c := range 3 {
			box(band[c], kx, ky, plane{boxed[c].pix[by*bw:], bw, bw, 1})
		}
	}
	for c := range 3 {
		resample(boxed[c], out[c], float64(part.Dx())/float64(kx), float64(part.Dy())/float64(ky))
	}
	return out
}

func newPlane(w, h int) plane { return plane{make([]byte, w*h), w, w, h} }
