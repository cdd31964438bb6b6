package mark

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Rodrigues' formula gives rotations: rows of length 1 at right angles.
func TestRotation(t *testing.T) {
	m := rotation([3]float64{0.3, -1.1, 0.7})
	for i := range 3 {
		for j := range 3 {
			want := 0.0
			if i == j {
				want = 1
			}
			require.InDelta(t, want, m[3*i]*m[3*j]+m[3*i+1]*m[3*j+1]+m[3*i+2]*m[3*j+2], 1e-12)
		}
	}
	quarter := rotation([3]float64{0, 0, math.Pi / 2})
	require.InDelta(t, 1, quarter[3], 1e-12, "x turns to y about z")
}
