package munsell

import "math"

// Of is the notation of a color given as CIE 1931 x, y and Y (0–1 of the
// perfect white) under illuminant C.
func Of(x, y, luminance float64) Notation {
	value := valueOf(luminance)
	hue, chroma := leafAt(value).find(point{x, y})
	return Notation{hue, value, chroma}
}

// XYY is the color of a notation, the inverse of Of.
func (n Notation) XYY() (x, y, luminance float64) {
	p, _, _ := leafAt(n.Value).at(n.Hue/step, n.Chroma/ring)
	return p.x, p.y, Y(n.Value)
}

// at is the chromaticity at a ray and a ring, both in steps and between steps
// taken as a bilinear patch, with its slopes along both.
func (l leaf) at(ray, rings float64) (p, alongHue, alongChroma point) {
	i, j := int(math.Floor(ray)), int(math.Floor(rings))
	u, v := ray-float64(i), rings-float64(j)
	a, b := l.chip(i, j), l.chip(i+1, j)
	c, d := l.chip(i, j+1), l.chip(i+1, j+1)
	inner, outer := mix(a, b, u), mix(c, d, u)
	return mix(inner, outer, v), mix(b.minus(a), d.minus(c), v), outer.minus(inner)
}

// find inverts at by Newton's method. A step is kept within one patch, where
// the slopes it used hold; the rings fan out and never fold, so it arrives.
func (l leaf) find(target point) (hue, chroma float64) {
	const near = 1e-10 // of chromaticity: far below any table's last digit
	if target.minus(white).length() < 1e-7 {
		return 0, 0
	}
	ray, rings := l.nearestRay(target), 1.0
	for range 200 {
		p, alongHue, alongChroma := l.at(ray, rings)
		miss := target.minus(p)
		area := cross(alongHue, alongChroma)
		if miss.length() < near || area == 0 {
			break
		}
		ray += clamp(cross(miss, alongChroma)/area, -1, 1)
		rings += clamp(cross(alongHue, miss)/area, -1, 1)
		ray = math.Mod(ray+hues, hues)
		// At the very center all hues meet and the slopes vanish.
		rings = clamp(rings, 1e-5, 50)
	}
	return ray * step, rings * ring
}

// nearestRay is the ray that points most nearly at the target.
func (l leaf) nearestRay(target point) float64 {
	to := target.minus(white)
	best, bestRay := math.Inf(-1), 0
	for ray, way := range &l.low.way {
		if along := way.x*to.x + way.y*to.y; along > best {
			best, bestRay = along, ray
		}
	}
	return float64(bestRay)
}

func clamp(v, low, high float64) float64 { return math.Min(math.Max(v, low), high) }
