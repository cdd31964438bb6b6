package mark

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Heckbert's closed form and least squares give the same map, and a map and
// its inverse undo each other.
func TestHomographies(t *testing.T) {
	q := Quad{{10, 20}, {210, 40}, {190, 260}, {-5, 220}}
	h := unitSquare(q)
	for i, p := range []Point{{0, 0}, {1, 0}, {1, 1}, {0, 1}} {
		require.InDelta(t, 0, h.to(p).distance(q[i]), 1e-9)
	}
	from := []Point{{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0.3, 0.6}}
	var to []Point
	for _, p := range from {
		to = append(to, h.to(p))
	}
	fit, ok := fitHomography(from, to)
	require.True(t, ok)
	at := Point{0.7, 0.2}
	require.InDelta(t, 0, fit.to(at).distance(h.to(at)), 1e-8)
	require.InDelta(t, 0, h.inverse().to(h.to(at)).distance(at), 1e-9)
}
