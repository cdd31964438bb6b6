package simulate

import (
	"math"
	"math/rand/v2"
)

// Camera is where the photo is taken from and what the lens does.
type Camera struct {
	W, H int        // pixels
	F    float64    // focal length, pixels
	Bend float64    // share by which the lens moves the frame's corner inwards
	Off  [2]float64 // where the lens' axis meets the sensor, pixels from the middle
	rot  [9]float64
	at   [3]float64
	k    float64
}

// Equivalent is the focal length in pixels of a lens said in mm for the 36 ×
// 24 mm frame, whose diagonal is 43.27 mm.
func Equivalent(mm float64, w, h int) float64 {
	return mm / 43.2666 * math.Hypot(float64(w), float64(h))
}

// Aim points the camera at the middle of a width × height mm target from tilt
// degrees off its normal, toward the compass direction around, turned by roll,
// from as near as keeps the target within fill of the frame.
func (c *Camera) Aim(width, height, tilt, around, roll, fill float64) {
	c.k = c.Bend / (math.Pow(float64(c.W)/2, 2) + math.Pow(float64(c.H)/2, 2))
	c.rot = product(spin(roll), product(spin(-around), product(lean(tilt), spin(around))))
	lo, hi := 0.2*math.Hypot(width, height), 20*math.Hypot(width, height)
	for range 40 {
		d := (lo + hi) / 2
		c.stand(width, height, d)
		if c.fits(width, height, fill) {
			hi = d
		} else {
			lo = d
		}
	}
	c.stand(width, height, hi)
}

func (c *Camera) stand(width, height, d float64) {
	// The lens' axis is the third row of the rotation.
	c.at = [3]float64{width/2 - d*c.rot[6], height/2 - d*c.rot[7], -d * c.rot[8]}
}

// box is what the target takes of the picture.
func (c *Camera) box(width, height float64) (x0, y0, x1, y1 float64) {
	x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range [][2]float64{{0, 0}, {width, 0}, {width, height}, {0, height}} {
		x, y, ok := c.See(p[0], p[1], 0)
		if !ok {
			return 0, 0, math.Inf(1), math.Inf(1)
		}
		x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
	}
	return x0, y0, x1, y1
}

func (c *Camera) fits(width, height, fill float64) bool {
	x0, y0, x1, y1 := c.box(width, height)
	rimX, rimY := (1-fill)/2*float64(c.W), (1-fill)/2*float64(c.H)
	return x0 >= rimX && y0 >= rimY && x1 <= float64(c.W)-rimX && y1 <= float64(c.H)-rimY
}

func spin(deg float64) [9]float64 {
	s, c := math.Sincos(deg * math.Pi / 180)
	return [9]float64{c, -s, 0, s, c, 0, 0, 0, 1}
}

func lean(deg float64) [9]float64 {
	s, c := math.Sincos(deg * math.Pi / 180)
	return [9]float64{1, 0, 0, 0, c, -s, 0, s, c}
}

func product(a, b [9]float64) (out [9]float64) {
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				out[3*i+j] += a[3*i+k] * b[3*k+j]
			}
		}
	}
	return out
}

// See is where in the picture the place x, y on the ground, height mm over it,
// is seen: pixels from the outer corner of the top left pixel.
func (c *Camera) See(x, y, height float64) (px, py float64, ok bool) {
	v := [3]float64{x - c.at[0], y - c.at[1], -height - c.at[2]}
	var p [3]float64
	for i := range 3 {
		p[i] = c.rot[3*i]*v[0] + c.rot[3*i+1]*v[1] + c.rot[3*i+2]*v[2]
	}
	if p[2] <= 0 {
		return 0, 0, false
	}
	ux, uy := c.F*p[0]/p[2], c.F*p[1]/p[2]
	// The lens is given from the picture to the ray: invert it.
	r := math.Hypot(ux, uy)
	d := r
	for range 20 {
		d -= (d*(1+c.k*d*d) - r) / (1 + 3*c.k*d*d)
	}
	if r > 0 {
		ux, uy = ux*d/r, uy*d/r
	}
	return ux + float64(c.W)/2 + c.Off[0], uy + float64(c.H)/2 + c.Off[1], true
}

// ray is the direction seen at a pixel place, in the ground's coordinates.
func (c *Camera) ray(px, py float64) [3]float64 {
	x, y := px-float64(c.W)/2-c.Off[0], py-float64(c.H)/2-c.Off[1]
	k := 1 + c.k*(x*x+y*y)
	x, y = x*k, y*k
	r := &c.rot
	return [3]float64{r[0]*x + r[3]*y + r[6]*c.F, r[1]*x + r[4]*y + r[7]*c.F, r[2]*x + r[5]*y + r[8]*c.F}
}

// Random draws a camera for a target: tilted up to tilt degrees, lens bent up
// to bend either way.
func Random(r *rand.Rand, w, h int, width, height, tilt, bend float64) Camera {
	c := Camera{W: w, H: h, F: Equivalent(24+4*r.Float64(), w, h), Bend: bend * (2*r.Float64() - 1)}
	c.Off = [2]float64{8 * r.NormFloat64(), 8 * r.NormFloat64()}
	r.Float64() // spent, so that a seed goes on giving the pictures it gave
	var roll float64
	if (w > h) != (width > height) {
		roll = 90 + 180*float64(r.IntN(2)) + 12*r.NormFloat64()
	} else {
		roll = 180*float64(r.IntN(2)) + 12*r.NormFloat64()
	}
	c.Aim(width, height, tilt*r.Float64(), 360*r.Float64(), roll, 0.97)
	return c
}
