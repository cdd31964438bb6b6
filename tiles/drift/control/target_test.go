package control_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/drift/control"
)

// Five points exactly on target, then two that are far off: only those two are
// signaled. A change of 0.02 is not (± 0.02: common practice).
func TestPointsOnTargetAreNotSignaledByLaterOnes(t *testing.T) {
	var points []control.Point
	for _, v := range []float64{1.45, 1.45, 1.45, 1.45, 1.45, 1.47, 1.43, 1.60, 1.62} {
		points = append(points, control.Point{Value: v})
	}
	c := control.OnTarget(points, 1.45, 0.02)
	require.Equal(t, []control.Signal{{At: 7, Rule: control.Beyond}, {At: 8, Rule: control.Beyond}}, c.Signals)
	require.InDelta(t, 1.43, c.Low, 1e-9)
	require.InDelta(t, 1.47, c.High, 1e-9)
}
