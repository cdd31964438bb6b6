package mark

import (
	"math"
	"slices"

	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/target"
)

// bow is a smooth height over a flat board, mm: the second and third powers of
// the place, from −1 to 1 across the board.
type bow struct {
	x, y, half float64    // middle of the board and half its longer side
	k          [7]float64 // of x², xy, y², x³, x²y, xy², y³
}

func (b *bow) at(x, y float64) float64 {
	if b.half == 0 {
		return 0
	}
	u, v := (x-b.x)/b.half, (y-b.y)/b.half
	k := &b.k
	return u*u*k[0] + u*v*k[1] + v*v*k[2] + u*u*u*k[3] + u*u*v*k[4] + u*v*v*k[5] + v*v*v*k[6]
}

// depth is how far the bowed board is from the flat one through its marks, mm.
func (w *bow) depth(h target.BoardLayout) float64 {
	var from []geometry.Point
	var z []float64
	for i := range 9 {
		for j := range 9 {
			x, y := h.Width*float64(i)/8, h.Height*float64(j)/8
			from, z = append(from, geometry.Point{X: x, Y: y}), append(z, w.at(x, y))
		}
	}
	rest := unplane(from, z)
	return slices.Max(rest) - slices.Min(rest)
}

// unplane takes the best plane off heights on a regular grid.
func unplane(at []geometry.Point, z []float64) []float64 {
	n := float64(len(at))
	var mx, my, mz, sxx, syy, sxz, syz float64
	for i, p := range at {
		mx, my, mz = mx+p.X/n, my+p.Y/n, mz+z[i]/n
	}
	for i, p := range at {
		dx, dy := p.X-mx, p.Y-my
		sxx, syy, sxz, syz = sxx+dx*dx, syy+dy*dy, sxz+dx*(z[i]-mz), syz+dy*(z[i]-mz)
	}
	out := make([]float64, len(z))
	for i, p := range at {
		out[i] = z[i] - mz - (p.X-mx)*sxz/math.Max(sxx, 1) - (p.Y-my)*syz/math.Max(syy, 1)
	}
	return out
}
