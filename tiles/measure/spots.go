package measure

import (
	"image"
	"math"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/photo"
)

// Bounds on what a chart's patch can look like in the search picture.
const (
	flatStep    = 13   // codes between neighbors inside a patch, at most
	leastPatch  = 16   // pixels
	mostPatch   = 0.05 // of the picture
	leastSquare = 0.75 // of the rectangle around it by its hull
	mostAspect  = 1.7
)

// spot is a flat area of the search picture.
type spot struct {
	center geometry.Point
	side   float64 // square root of its area
}

// flatSpots finds the connected flat areas that are about square.
func flatSpots(small photo.Small) []spot {
	w, h := small.Rect.Dx(), small.Rect.Dy()
	s := search{w: w, h: h, other: flat(small), lab: make([]color.Lab, w*h)}
	labels := make([]int32, w*h)
	var out []spot
	for i, in := range s.other {
		if !in || labels[i] != 0 {
			continue
		}
		label := int32(i + 1)
		b := s.flood(labels, i, label)
		if b.size < leastPatch || float64(b.size) > mostPatch*float64(w*h) || b.edge > 0 {
			continue
		}
		t := thing{mask: make([]bool, len(labels)), size: b.size}
		for j, l := range labels {
			t.mask[j] = l == label
		}
		hull := t.hull(w)
		q, fill := around(hull)
		across, down := q.Size()
		if fill < leastSquare || max(across, down) > mostAspect*min(across, down) || float64(b.size) < 0.7*areaOf(hull) {
			continue
		}
		n := float64(b.size)
		out = append(out, spot{geometry.Point{X: b.sumX/n + 0.5, Y: b.sumY/n + 0.5}, math.Sqrt(n)})
	}
	return out
}

// flat marks pixels that hardly differ from those beside them.
func flat(small photo.Small) []bool {
	w, h := small.Rect.Dx(), small.Rect.Dy()
	rgb := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			rgb.Set(x, y, small.At(x, y))
		}
	}
	out := make([]bool, w*h)
	for y := 1; y < h-1; y++ {
		for x := 1; x < w-1; x++ {
			at := rgb.PixOffset(x, y)
			steep := 0
			for c := range 3 {
				dx := int(rgb.Pix[at+4+c]) - int(rgb.Pix[at-4+c])
				dy := int(rgb.Pix[at+rgb.Stride+c]) - int(rgb.Pix[at-rgb.Stride+c])
				steep = max(steep, dx, -dx, dy, -dy)
			}
			out[y*w+x] = steep <= flatStep
		}
	}
	return out
}
