package foresee

import (
	"math"
	"math/rand/v2"

	"github.com/twodip/twodip/tiles/color"
)

// world is an invented studio whose every pair has a true color. What is fired
// scatters about it.
type world struct {
	singles []color.Lab // n: true
	pairs   []color.Lab // n·n: true
	scatter float64     // per axis of CIELAB
	random  *rand.Rand
}

func (w *world) n() int { return len(w.singles) }

// fire is the color of one tile: what comes out of the kiln and through the
// camera is not twice the same.
func (w *world) fire(c color.Lab) color.Lab {
	r := func() float64 { return w.random.NormFloat64() * w.scatter }
	return color.Lab{L: min(max(c.L+r(), 0), 100), A: c.A + r(), B: c.B + r()}
}

// part fires the singles and k partners of each glaze both as first and as
// second, around a shuffled circle; unfired is the rest.
func (w *world) part(k int) (s Studio, unfired []Pair) {
	n := w.n()
	for _, c := range w.singles {
		s.Singles = append(s.Singles, w.fire(c))
	}
	chosen := w.design(k)
	for i := range n {
		for j := range n {
			p := Pair{First: i, Second: j, Lab: w.fire(w.pairs[i*n+j])}
			switch {
			case i == j:
			case chosen[i*n+j]:
				s.Pairs = append(s.Pairs, p)
			default:
				unfired = append(unfired, p)
			}
		}
	}
	return s, unfired
}

// design chooses k partners each way, by random steps round a random circle.
func (w *world) design(k int) []bool {
	n := w.n()
	circle, steps := w.random.Perm(n), w.random.Perm(n-1)
	chosen := make([]bool, n*n)
	for _, step := range steps[:k] {
		for at := range n {
			chosen[circle[at]*n+circle[(at+step+1)%n]] = true
		}
	}
	return chosen
}

const bands = 16 // 400 to 700 nm by 20

type spectrum [bands]float64

func wavelength(k int) float64 { return 400 + 20*float64(k) }

// eye is the CIE 1931 observer by the lobes of Wyman, Sloan and Shirley,
// J. Computer Graphics Techniques 2 (2013) 1–11, scaled so that a surface that
// sends back everything has the white D50.
var eye = func() (e [bands]color.XYZ) {
	lobe := func(l, mid, left, right float64) float64 {
		wide := left
		if l >= mid {
			wide = right
		}
		t := (l - mid) / wide
		return math.Exp(-t * t / 2)
	}
	var sum color.XYZ
	for k := range e {
		l := wavelength(k)
		e[k] = color.XYZ{
			X: 1.056*lobe(l, 599.8, 37.9, 31.0) + 0.362*lobe(l, 442.0, 16.0, 26.7) - 0.065*lobe(l, 501.1, 20.4, 26.2),
			Y: 0.821*lobe(l, 568.8, 46.9, 40.5) + 0.286*lobe(l, 530.9, 16.3, 31.1),
			Z: 1.217*lobe(l, 437.0, 11.8, 36.0) + 0.681*lobe(l, 459.0, 26.0, 13.8),
		}
		sum.X, sum.Y, sum.Z = sum.X+e[k].X, sum.Y+e[k].Y, sum.Z+e[k].Z
	}
	for k := range e {
		e[k].X *= color.D50.X / sum.X
		e[k].Y *= 1 / sum.Y
		e[k].Z *= color.D50.Z / sum.Z
	}
	return e
}()

func (s spectrum) lab() color.Lab {
	var x color.XYZ
	for k, v := range s {
		// 4 % of the light comes back from the gloss, as from any glass.
		v = 0.04 + 0.96*v*0.98
		x.X, x.Y, x.Z = x.X+v*eye[k].X, x.Y+v*eye[k].Y, x.Z+v*eye[k].Z
	}
	return x.Lab()
}

// stuff scatters and absorbs, per unit of thickness.
type stuff struct{ s, k spectrum }

// mixed is a share of one stuff stirred into another: K and S add up (Duncan 1940).
func (a stuff) mixed(b stuff, share float64) stuff {
	for i := range bands {
		a.s[i] += share * (b.s[i] - a.s[i])
		a.k[i] += share * (b.k[i] - a.k[i])
	}
	return a
}

// coat is a layer of the stuff on a ground, by Kubelka's hyperbolic solution
// (1948, equation 24): not the form that layer.go uses.
func (a stuff) coat(thick float64, ground spectrum) spectrum {
	var out spectrum
	for i := range bands {
		s, k := max(a.s[i], 1e-4), max(a.k[i], 1e-5)
		p := 1 + k/s
		q := math.Sqrt(p*p - 1)
		coth := 1 / math.Tanh(q*s*thick)
		out[i] = (1 - ground[i]*(p-q*coth)) / (p - ground[i] + q*coth)
	}
	return out
}
