package mark

import (
	"math"

	"github.com/twodip/twodip/tiles/geometry"
)

// View is a camera with a lens as it stood before the page or board. It says
// where any place on it was seen.
type View struct {
	turn     [9]float64     // ground → camera, row by row; z points away from the camera
	shift    [3]float64     // mm
	focal    float64        // pixels
	k1, k2   float64        // radial distortion (Brown): x·(1 + k1·r² + k2·r⁴), r = 1 one focal length off the axis
	axis     geometry.Point // where the axis meets the picture
	grow     float64        // share by which printed black is larger than drawn, from each mark's middle
	bow      bow            // height of the ground over flat
	Residual float64        // root mean square distance of the marks from where the camera puts them, pixels
}

// See is where the place x, y (mm, as in package target) is seen when it
// stands height mm toward the camera.
func (v *View) See(x, y, height float64) geometry.Point {
	z := -height - v.bow.at(x, y)
	cx := v.turn[0]*x + v.turn[1]*y + v.turn[2]*z + v.shift[0]
	cy := v.turn[3]*x + v.turn[4]*y + v.turn[5]*z + v.shift[1]
	cz := v.turn[6]*x + v.turn[7]*y + v.turn[8]*z + v.shift[2]
	cx, cy = cx/cz, cy/cz
	r := cx*cx + cy*cy
	k := v.focal * (1 + r*(v.k1+r*v.k2))
	return geometry.Point{X: v.axis.X + k*cx, Y: v.axis.Y + k*cy}
}

// Tilt is how far the camera looked from straight on, in degrees.
func (v *View) Tilt() float64 {
	return math.Acos(min(math.Abs(v.turn[8]), 1)) * 180 / math.Pi
}

// ahead says that the place is before the camera, not behind it.
func (v *View) ahead(x, y float64) bool {
	return v.turn[6]*x+v.turn[7]*y+v.shift[2] > 0
}

// Scale is how many pixels a millimetre covers at a place, the lesser of the
// two directions.
func (v *View) Scale(x, y float64) float64 {
	o := v.See(x, y, 0)
	return min(v.See(x+1, y, 0).Distance(o), v.See(x, y+1, 0).Distance(o))
}

// rotation is the matrix that turns about a vector by its length (Rodrigues).
func rotation(w [3]float64) [9]float64 {
	a := math.Sqrt(w[0]*w[0] + w[1]*w[1] + w[2]*w[2])
	s, c := 1.0, 0.5
	if a > 1e-9 {
		s, c = math.Sin(a)/a, (1-math.Cos(a))/(a*a)
	}
	x, y, z := w[0], w[1], w[2]
	return [9]float64{
		1 - c*(y*y+z*z), c*x*y - s*z, c*x*z + s*y,
		c*x*y + s*z, 1 - c*(x*x+z*z), c*y*z - s*x,
		c*x*z - s*y, c*y*z + s*x, 1 - c*(x*x+y*y),
	}
}
