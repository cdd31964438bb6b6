package geometry

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Heckbert's closed form and least squares give the same map, and a map and
// its inverse undo each other.
func TestProjections(t *testing.T) {
	q := Quad{{10, 20}, {210, 40}, {190, 260}, {-5, 220}}
	h := q.Projection()
	for i, p := range []Point{{0, 0}, {1, 0}, {1, 1}, {0, 1}} {
		require.InDelta(t, 0, h.To(p).Distance(q[i]), 1e-9)
	}
	from := []Point{{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0.3, 0.6}}
	var to []Point
	for _, p := range from {
		to = append(to, h.To(p))
	}
	fit, ok := Fit(from, to)
	require.True(t, ok)
	at, back := Point{X: 0.7, Y: 0.2}, h.Inverse()
	require.InDelta(t, 0, fit.To(at).Distance(h.To(at)), 1e-8)
	require.InDelta(t, 0, back.To(h.To(at)).Distance(at), 1e-9)
}
