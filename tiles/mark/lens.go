package mark

import (
	"math"

	"github.com/twodip/twodip/tiles/geometry"
)

// frame is the diagonal of the 36 × 24 mm frame, mm.
const frameDiagonal = 43.2666

// usual is the lens assumed where the photo does not say: a phone's main one.
const usualFocal = 26.0

// Lens35 is the focal length, in mm for the 36 × 24 mm frame, that a photo's
// own data gives; 0 = it does not say.
type Lens35 float64

// Wide says that the lens is an ultrawide one, whose distortion is too large
// to be read well.
func (l Lens35) Wide() bool { return l > 0 && l < 19 }

func (l Lens35) lens(w, h int) lens {
	diagonal := math.Hypot(float64(w), float64(h))
	center := geometry.Point{X: float64(w) / 2, Y: float64(h) / 2}
	if l < 8 || l > 400 {
		return lens{focal: usualFocal / frameDiagonal * diagonal, spread: 0.12, center: center}
	}
	return lens{focal: float64(l) / frameDiagonal * diagonal, spread: 0.04, center: center}
}

// lens is what is known of the camera before it is fitted.
type lens struct {
	focal  float64        // pixels
	spread float64        // its relative uncertainty
	center geometry.Point // middle of the picture
}
