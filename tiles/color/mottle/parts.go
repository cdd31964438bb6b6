package mottle

import (
	"math"

	"github.com/twodip/twodip/tiles/color"
)

// Part is one of the two main colors of an area and its share, 0–1.
type Part struct {
	Lab   color.Lab
	Share float64
}

const (
	apart    = 4.0  // ΔE00 below which two colors are not worth two names
	smallest = 0.03 // share below which a part is a speck
	rounds   = 50
)

// Parts is the area's two main colors, the larger share first, or none where
// it is one color: two that are less than 4 ΔE00 apart, or of which one covers
// less than 3 %, are not told apart.
//
// Found by 2-means in Lab. It starts from the two ends of the longest axis, so
// the same area always gives the same parts.
func (a Area) Parts() []Part {
	cells := a.used()
	if len(cells) < 2 {
		return nil
	}
	labs := make([]color.Lab, len(cells))
	for i, c := range cells {
		labs[i] = c.Lab()
	}
	one, two := ends(labs)
	for range rounds {
		m, n := halves(labs, one, two)
		if m == one && n == two {
			break
		}
		one, two = m, n
	}
	return parts(cells, labs, one, two)
}

// ends is two places on either side of the mean, along the axis on which the
// colors differ most.
func ends(labs []color.Lab) (one, two color.Lab) {
	mean := centroid(labs)
	var cov [3][3]float64
	for _, c := range labs {
		d := [3]float64{c.L - mean.L, c.A - mean.A, c.B - mean.B}
		for i := range d {
			for j := range d {
				cov[i][j] += d[i] * d[j]
			}
		}
	}
	n := float64(len(labs))
	axis, length := longest(cov)
	sd := math.Sqrt(length / n)
	return color.Lab{L: mean.L + sd*axis[0], A: mean.A + sd*axis[1], B: mean.B + sd*axis[2]},
		color.Lab{L: mean.L - sd*axis[0], A: mean.A - sd*axis[1], B: mean.B - sd*axis[2]}
}

// longest is the main axis of a covariance, and its length, by repeated
// multiplication.
func longest(cov [3][3]float64) (axis [3]float64, length float64) {
	axis = [3]float64{1, 0.1, 0.01} // askew, so that no axis is missed
	for range 100 {
		var next [3]float64
		for i := range next {
			for j := range axis {
				next[i] += cov[i][j] * axis[j]
			}
		}
		length = math.Sqrt(next[0]*next[0] + next[1]*next[1] + next[2]*next[2])
		if length == 0 {
			return axis, 0
		}
		for i := range next {
			axis[i] = next[i] / length
		}
	}
	return axis, length
}

func centroid(labs []color.Lab) (mean color.Lab) {
	for _, c := range labs {
		mean.L += c.L
		mean.A += c.A
		mean.B += c.B
	}
	n := float64(len(labs))
	return color.Lab{L: mean.L / n, A: mean.A / n, B: mean.B / n}
}

// halves is the centroids of the colors nearer to one and nearer to two.
func halves(labs []color.Lab, one, two color.Lab) (color.Lab, color.Lab) {
	var near, far []color.Lab
	for _, c := range labs {
		if square(c, one) <= square(c, two) {
			near = append(near, c)
		} else {
			far = append(far, c)
		}
	}
	if len(near) == 0 || len(far) == 0 {
		return one, two
	}
	return centroid(near), centroid(far)
}

func square(p, q color.Lab) float64 {
	l, a, b := p.L-q.L, p.A-q.A, p.B-q.B
	return l*l + a*a + b*b
}

// parts turns two centers into colors and shares. Every cell counts for its
// share; only those well on one side count for the color, since a cell on the
// border of two colors is a mixture of them.
func parts(cells []color.XYZ, labs []color.Lab, one, two color.Lab) []Part {
	var core [2][]color.XYZ
	var count [2]int
	for i, c := range labs {
		to, from := square(c, one), square(c, two)
		side := 0
		if to > from {
			side, to, from = 1, from, to
		}
		count[side]++
		if 4*to <= from {
			core[side] = append(core[side], cells[i])
		}
	}
	out := make([]Part, 2)
	for side := range out {
		share := float64(count[side]) / float64(len(labs))
		if share < smallest || len(core[side]) == 0 {
			return nil
		}
		out[side] = Part{color.Mean(core[side]).Lab(), share}
	}
	if color.DE00(out[0].Lab, out[1].Lab) < apart {
		return nil
	}
	if out[0].Share < out[1].Share {
		out[0], out[1] = out[1], out[0]
	}
	return out
}
