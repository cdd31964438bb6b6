package color

import "math"

const (
	pow25to7 = 6103515625.0 // 25⁷
	degree   = math.Pi / 180
)

// Evident is the ΔE00 from which most people see a difference without being
// told of it (common practice, no source): within a doubt larger than that two
// colors may be one, and nobody should say that they are.
const Evident = 4

// DE00 is the CIEDE2000 difference of two colors, kL = kC = kH = 1; about 1 is
// the least difference people see side by side. It is symmetric. Where the
// hues are exactly opposite the formula itself jumps.
//
// Source: CIE 142-2001 (ISO/CIE 11664-6), in the order of steps of Sharma, Wu
// and Dalal, Color Res. Appl. 30 (2005) 21–30, equations 2 to 22.
func DE00(p, q Lab) float64 {
	c7 := pow7((math.Hypot(p.A, p.B) + math.Hypot(q.A, q.B)) / 2)
	g := 1.5 - 0.5*math.Sqrt(c7/(c7+pow25to7)) // 1 + G
	a1, a2 := g*p.A, g*q.A
	c1, c2 := math.Hypot(a1, p.B), math.Hypot(a2, q.B)
	h1, h2 := hueAngle(p.B, a1), hueAngle(q.B, a2)

	lBar, cBar := (p.L+q.L)/2, (c1+c2)/2
	dh, hBar := hues(h1, h2, c1*c2 == 0)
	dL, dC := q.L-p.L, c2-c1
	dH := 2 * math.Sqrt(c1*c2) * math.Sin(dh/2)

	l50 := (lBar - 50) * (lBar - 50)
	t := 1 - 0.17*math.Cos(hBar-30*degree) + 0.24*math.Cos(2*hBar) +
		0.32*math.Cos(3*hBar+6*degree) - 0.20*math.Cos(4*hBar-63*degree)
	sL := 1 + 0.015*l50/math.Sqrt(20+l50)
	sC := 1 + 0.045*cBar
	sH := 1 + 0.015*cBar*t

	b7 := pow7(cBar)
	bend := (hBar/degree - 275) / 25
	rT := -2 * math.Sqrt(b7/(b7+pow25to7)) * math.Sin(60*degree*math.Exp(-bend*bend))

	l, c, h := dL/sL, dC/sC, dH/sH
	// Rounding may leave a hair below zero for equal colors.
	return math.Sqrt(math.Max(0, l*l+c*c+h*h+rT*c*h))
}

// hueAngle is h' in radians, 0 to 2π; 0 for a grey.
func hueAngle(b, a float64) float64 {
	h := math.Atan2(b, a)
	if h < 0 {
		h += 2 * math.Pi
	}
	return h
}

// hues is the hue difference the short way round and the mean hue, radians.
// Opposite hues (|Δh| = π) count as the short way within 1e-12, so that
// rounding does not decide: with it all 34 published pairs come out.
func hues(h1, h2 float64, grey bool) (dh, mean float64) {
	const half = math.Pi + 1e-12
	if grey {
		return 0, h1 + h2
	}
	dh, mean = h2-h1, (h1+h2)/2
	switch {
	case math.Abs(dh) <= half:
		return dh, mean
	case h1+h2 < 2*math.Pi:
		mean += math.Pi
	default:
		mean -= math.Pi
	}
	if dh > 0 {
		return dh - 2*math.Pi, mean
	}
	return dh + 2*math.Pi, mean
}

func pow7(v float64) float64 {
	v3 := v * v * v
	return v3 * v3 * v
}
