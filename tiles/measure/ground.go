package measure

import (
	"math"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/geometry"
)

// Bounds on a sheet of grey card that a tile is photographed on.
const (
	groundBand   = 0.07 // of the picture, along each of its edges
	groundClear  = 0.05 // of the picture, between the band and the tile: its shadow
	groundUneven = 0.06 // of its light once leveled, root mean square
	groundTint   = 20.0 // C*ab as the camera has it; white balance alone is not so far off
)

// byGround corrects by the grey sheet that the tile lies on: its light along
// the picture's edges, where no shadow falls, tells the light's color and how
// it falls over the tile between.
func (f *fitting) byGround(p color.Patch) {
	bands := f.groundBands()
	why := f.hiddenGround(bands)
	if why == "" {
		f.Light = readLight(f.photo, &Found{Paper: bands})
		why = f.unlikeGround(bands)
	}
	if why != "" {
		f.Light = Lit{Places: f.Light.Places}
		f.note("the grey ground was not used: %s", why)
		return
	}
	if f.bySeen([]correct.Seen{{Patch: p, RGB: f.Light.Paper}}) {
		f.said = "grey ground"
	}
}

// hiddenGround says why the ground cannot be seen.
func (f *fitting) hiddenGround(bands []geometry.Quad) string {
	switch {
	case f.found.Card != nil:
		return "the tile lies on the photo mat"
	case f.found.Faces[0].Found == FoundMiddle:
		return "the tile does not stand out from it"
	case len(bands) < 2:
		return "leave some of it around the tile on all sides"
	}
	return ""
}

// groundBands are the strips along the picture's edges that keep clear of what
// was found in it.
func (f *fitting) groundBands() (out []geometry.Quad) {
	w, h := float64(f.photo.Width()), float64(f.photo.Height())
	band, clear := groundBand*min(w, h), groundClear*min(w, h)
	left, top, right, bottom := w, h, 0.0, 0.0 // of what was found
	for _, face := range f.found.Faces {
		for _, c := range face.Quad {
			left, right = min(left, c.X), max(right, c.X)
			top, bottom = min(top, c.Y), max(bottom, c.Y)
		}
	}
	strip := func(room, x0, y0, x1, y1 float64) {
		if room >= band+clear {
			out = append(out, geometry.Box(x0, y0, x1, y1))
		}
	}
	strip(top, 0, 0, w, band)
	strip(h-bottom, 0, h-band, w, h)
	strip(left, 0, band, band, h-band)
	strip(w-right, w-band, band, w, h-band)
	return out
}

// unlikeGround says why what lies along the edges is no sheet of grey.
func (f *fitting) unlikeGround(bands []geometry.Quad) string {
	if f.Light.Paper == (correct.RGB{}) {
		return "it is blown out"
	}
	if f.photo.Profile.XYZ(f.Light.Paper[0], f.Light.Paper[1], f.Light.Paper[2]).Lab().Chroma() > groundTint {
		return "what the tile lies on is not grey"
	}
	m := f.areas
	m.read(f.photo, f.photo.Image.Bounds())
	sum, n := 0.0, 0.0
	for _, q := range bands {
		for _, part := range q.Cut(groundBand * float64(f.photo.Width())) {
			if rgb, ok := m.middling(part); ok {
				off := math.Log(f.Light.leveled(part, rgb)[1] / f.Light.Paper[1])
				sum, n = sum+off*off, n+1
			}
		}
	}
	if n < 8 || math.Sqrt(sum/n) > groundUneven {
		return "what the tile lies on is not one even sheet, or shadows fall across it"
	}
	return ""
}
