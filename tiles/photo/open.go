package photo

import (
	"errors"
	"fmt"
	"image"
	"io"
	"strings"
)

// Photo is one opened picture, upright.
type Photo struct {
	// Image is one of *image.YCbCr, *image.Gray, *image.Gray16, *image.NRGBA,
	// *image.RGBA (opaque), *image.NRGBA64 or *image.RGBA64 (opaque), with its
	// corner at 0, 0. Pixels that were more than half transparent are white.
	Image   image.Image
	Profile Profile
	Format  string   // "JPEG", "PNG", "HEIC", "WebP" or "TIFF"
	Taken   string   // by the camera's clock, "2006-01-02 15:04"; "" = not said
	Focal   float64  // focal length in mm as if on 35 mm film; 0 = not said
	Notes   []string // what lessens the trust in its colors, a sentence each

	light *[3][]float32
}

// picture is what a decoder hands over.
type picture struct {
	img     image.Image
	space   space
	upright bool // the decoder has turned it already
}

// Open decodes the picture in data, which it neither keeps nor changes. An
// error is a Refusal. A decoder that panics is a refusal too.
func Open(data []byte) (p *Photo, err error) {
	defer func() {
		if r := recover(); r != nil {
			p, err = nil, refuse(doExport, "its data is damaged or hostile and cannot be decoded")
		}
	}()
	f, err := sniff(data)
	if err != nil {
		return nil, err
	}
	pic, err := decode(data, f)
	if err != nil {
		return nil, err
	}
	e := readEXIF(data, f)
	if pic.upright {
		e.orientation = 1
	}
	plain, err := normalize(pic.img)
	if err != nil {
		return nil, err
	}
	p = &Photo{Image: turn(plain, e.orientation), Format: string(f), Taken: e.taken, Focal: e.focal}
	return p, p.manage(pic.space)
}

func decode(data []byte, f format) (picture, error) {
	switch f {
	case formatJPEG:
		return openJPEG(data)
	case formatPNG:
		return openPNG(data)
	case formatTIFF:
		return openTIFF(data)
	case formatWebP:
		return openWebP(data)
	case formatHEIC:
		return openHEIC(data)
	}
	return picture{}, fmt.Errorf("no decoder for %s", f)
}

// manage gives the photo its profile and the tables of linear light.
func (p *Photo) manage(s space) error {
	gray := false
	switch p.Image.(type) {
	case *image.Gray, *image.Gray16:
		gray = true
	}
	profile, note, err := s.profile(gray)
	if err != nil {
		return err
	}
	if note != "" {
		p.Notes = append(p.Notes, note)
	}
	p.Profile = profile
	p.light = profile.Table(p.Top())
	return nil
}

// Width is in upright pixels.
func (p *Photo) Width() int { return p.Image.Bounds().Dx() }

// Height is in upright pixels.
func (p *Photo) Height() int { return p.Image.Bounds().Dy() }

// decodeError makes a decoder's error a refusal.
func decodeError(err error) error {
	why := strings.TrimSpace(err.Error())
	if errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, io.EOF) || strings.Contains(why, "short Huffman data") {
		return errCut
	}
	for _, prefix := range []string{"invalid JPEG format: ", "unsupported JPEG feature: ", "png: ", "tiff: ", "webp: ", "riff: ", "vp8: ", "vp8l: "} {
		why = strings.TrimPrefix(why, prefix)
	}
	if len(why) > 80 {
		why = why[:80]
	}
	return refuse(doExport, "its data cannot be decoded (%q)", why)
}
