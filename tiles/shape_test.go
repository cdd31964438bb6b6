package tiles_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

// Derived: 81 mm of glaze and two dips of 54 mm give three bands of 27 mm.
func TestZonesEqualThirds(t *testing.T) {
	s := tiles.Shape{Width: 40, Height: 90, Bare: 9, Layout: tiles.LayoutEnds, FirstDip: 54, SecondDip: 54}
	z, err := s.Zones()
	require.NoError(t, err)
	require.Equal(t, tiles.Zones{First: 27, Overlap: 27, Second: 27}, z)
	require.Equal(t, s.Glazed(), z.First+z.Overlap+z.Second)
}

func TestZonesFromTheSidesShareTheWidth(t *testing.T) {
	s := tiles.Shape{Width: 60, Height: 90, Bare: 12, Layout: tiles.LayoutSides, FirstDip: 40, SecondDip: 45}
	z, err := s.Zones()
	require.NoError(t, err)
	require.Equal(t, tiles.Zones{First: 15, Overlap: 25, Second: 20}, z)
}

func TestZonesWholeIsAllOverlap(t *testing.T) {
	z, err := tiles.Shape{Width: 50, Height: 75, Bare: 12, Layout: tiles.LayoutWhole}.Zones()
	require.NoError(t, err)
	require.Equal(t, tiles.Zones{Overlap: 63}, z)
}

func TestZonesRefusesDipsThatDoNotMeet(t *testing.T) {
	s := tiles.Shape{Height: 90, Layout: tiles.LayoutEnds, FirstDip: 40, SecondDip: 50}
	_, err := s.Zones()
	require.ErrorContains(t, err, "do not meet")
	s.FirstDip = 95
	_, err = s.Zones()
	require.ErrorContains(t, err, "deeper than")
}
