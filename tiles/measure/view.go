package measure

import (
	"bytes"
	"image"
	"image/color"
	"image/png"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/photo"
)

// View is what of a photo was cut out and used, for a person to check.
// Outlines are in upright pixels of the photo.
type View struct {
	Width, Height int    // of the photo
	JPEG          []byte // the photo, small
	Faces         []Seen
	Reference     []geometry.Quad // what color was corrected by
	Paper         []geometry.Quad // white paper that the light was read from
}

// Seen is one tile in the photo.
type Seen struct {
	Tile    tiles.Number
	Found   string // how: one of the Found words
	Outline geometry.Quad
	Zones   []geometry.Quad // the areas that were averaged
	Dropped []byte          // PNG, marking what of them was not; nil = nothing
	At      image.Rectangle // where Dropped lies in the photo
}

// Sizes of the picture in a view, pixels along its longer side.
const (
	viewOfOne   = 640
	viewOfBoard = 1600
)

// newView begins the view of a photo; faces are added as they are read.
func newView(p *photo.Photo, found *Found, fix *Fix) (*View, error) {
	longest := viewOfOne
	if found.Whole {
		longest = viewOfBoard
	}
	v := &View{Width: p.Width(), Height: p.Height(), Paper: fix.Light.Places, Reference: fix.Used}
	var err error
	v.JPEG, err = p.Small(p.Image.Bounds(), longest).JPEG(0)
	return v, err
}

// seen is a face with what of its zones was dropped.
func (m *mosaic) seen(f *Face, zones []geometry.Quad, dropped []int32) (Seen, error) {
	out := Seen{Tile: f.Tile, Found: f.Found, Outline: f.Quad, Zones: zones}
	if len(dropped) == 0 {
		return out, nil
	}
	mask := image.NewPaletted(image.Rect(0, 0, m.w, m.h), color.Palette{color.NRGBA{}, color.NRGBA{255, 0, 160, 170}})
	for _, b := range dropped {
		mask.Pix[int(b)/m.w*mask.Stride+int(b)%m.w] = 1
	}
	var b bytes.Buffer
	err := png.Encode(&b, mask)
	out.Dropped = b.Bytes()
	out.At = image.Rect(m.bounds.Min.X, m.bounds.Min.Y, m.bounds.Min.X+m.w*m.side, m.bounds.Min.Y+m.h*m.side)
	return out, err
}
