package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/plan"
)

// Brongniart's formula with S = 2.6: SG 1.45 → 731 g/L, 1.50 → 812 (potters'
// handbooks, rounded down to the gram).
func TestDrySolids(t *testing.T) {
	require.InDelta(t, 731, plan.DrySolids(1.45), 0.5)
	require.InDelta(t, 812, plan.DrySolids(1.50), 0.6)
}

// Derived, at SG 1.45: 0.4 mm about 8 ml per dm², 0.5 about 10, 0.75 about 15.
func TestCoatSlurry(t *testing.T) {
	for thickness, ml := range map[float64]float64{0.4: 8, 0.5: 10, 0.75: 15} {
		require.InDelta(t, ml, 1000*plan.CoatSlurry(thickness, 1.45), 0.4)
	}
}
