package measure

import (
	"math"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/mark"
)

// Bounds on a sheet of grey card that a tile is photographed on.
const (
	groundBand   = 0.07 // of the picture, along each of its edges
	groundClear  = 0.05 // of the picture, between the band and the tile: its shadow
	groundUneven = 0.06 // of its light once leveled, root mean square
	groundTint   = 20.0 // C*ab as the camera has it; white balance alone is not so far off
)

// fitGround corrects by the grey sheet that the tile lies on: its light along
// the picture's edges, where no shadow falls, tells the light's color and how
// it falls over the tile between.
func (s *scene) fitGround(p color.Patch) {
	bands := s.groundBands()
	why := s.hiddenGround(bands)
	if why == "" {
		s.readLight(bands, nil)
		why = s.unlikeGround(bands)
	}
	if why != "" {
		s.light, s.paper = nil, correct.RGB{}
		s.note("the grey ground was not used: " + why)
		return
	}
	if s.fitSeen([]correct.Seen{{Patch: p, RGB: s.paper}}) {
		s.said = "grey ground"
	}
}

// hiddenGround says why the ground cannot be seen.
func (s *scene) hiddenGround(bands []mark.Quad) string {
	switch {
	case s.cardPlace != nil:
		return "the tile lies on the photo mat"
	case s.faces[0].Found == FoundMiddle:
		return "the tile does not stand out from it"
	case len(bands) < 2:
		return "leave some of it around the tile on all sides"
	}
	return ""
}

// groundBands are the strips along the picture's edges that keep clear of what
// was found in it.
func (s *scene) groundBands() (out []mark.Quad) {
	w, h := float64(s.photo.Width()), float64(s.photo.Height())
	band, clear := groundBand*min(w, h), groundClear*min(w, h)
	left, top, right, bottom := w, h, 0.0, 0.0 // of what was found
	for _, f := range s.faces {
		for _, c := range f.Quad {
			left, right = min(left, c.X), max(right, c.X)
			top, bottom = min(top, c.Y), max(bottom, c.Y)
		}
	}
	strip := func(room, x0, y0, x1, y1 float64) {
		if room >= band+clear {
			out = append(out, mark.Quad{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}})
		}
	}
	strip(top, 0, 0, w, band)
	strip(h-bottom, 0, h-band, w, h)
	strip(left, 0, band, band, h-band)
	strip(w-right, w-band, band, w, h-band)
	return out
}

// unlikeGround says why what lies along the edges is no sheet of grey.
func (s *scene) unlikeGround(bands []mark.Quad) string {
	if s.paper == (correct.RGB{}) {
		return "it is blown out"
	}
	if s.photo.Profile.XYZ(s.paper[0], s.paper[1], s.paper[2]).Lab().Chroma() > groundTint {
		return "what the tile lies on is not grey"
	}
	var m mosaic
	m.read(s.photo, s.photo.Image.Bounds())
	sum, n := 0.0, 0.0
	for _, q := range bands {
		for _, part := range quadOf(q).cut(groundBand * float64(s.photo.Width())) {
			if rgb, ok := m.middling(part); ok {
				off := math.Log(s.leveled(part, rgb)[1] / s.paper[1])
				sum, n = sum+off*off, n+1
			}
		}
	}
	if n < 8 || math.Sqrt(sum/n) > groundUneven {
		return "what the tile lies on is not one even sheet, or shadows fall across it"
	}
	return ""
}
