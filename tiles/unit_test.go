package tiles_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

// The inch of 25.4 mm and the pound of 0.45359237 kg (international yard and
// pound, 1959); the US gallon of 231 cubic inches, 3.785411784 l (NIST Handbook
// 44, appendix C).
func TestUnitsSay(t *testing.T) {
	for _, c := range []struct{ want, got string }{
		{"64 mm", tiles.UnitsMetric.Length(64)},
		{"64 mm", tiles.Units("").Length(64.1)},
		{"2½ in", tiles.UnitsUS.Length(63.5)},
		{"1\u00a07/16 in", tiles.UnitsUS.Length(36.5)},
		{"½ in (12.5 mm)", tiles.UnitsBoth.Length(12.7)},
		{"3/16 in", tiles.UnitsUS.Length(4.7625)},
		{"2 × 3 in (51 × 76 mm)", tiles.UnitsBoth.Lengths(50.8, 76.2)},
		{"2.2 lb", tiles.UnitsUS.Weight(1)},
		{"8.0 oz", tiles.UnitsUS.Weight(0.2268)},
		{"227 g", tiles.UnitsMetric.Weight(0.2268)},
		{"8.3 lb per gallon", tiles.UnitsUS.Density(1)}, // water: 8.34 lb a gallon, from memory
		{"16.7 lb per gallon (2 kg per litre)", tiles.UnitsBoth.Density(2)},
		{"1.0 gal", tiles.UnitsUS.Volume(3.7855)},
		{"2.0 qt", tiles.UnitsUS.Volume(1.893)},
		{"16 fl oz (473 ml)", tiles.UnitsBoth.Volume(0.473)},
		{"3.8 l", tiles.UnitsMetric.Volume(3.785)},
	} {
		require.Equal(t, c.want, c.got)
	}
}
