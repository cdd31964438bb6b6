package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The published large-cone table (60 and 150 °C an hour); the °F are derived,
// and agree with the table's own.
func TestConeEnds(t *testing.T) {
	for cone, want := range map[string][4]int{
		"6":      {1220, 2228, 1241, 2266},
		"5":      {1184, 2163, 1205, 2201},
		"4":      {1160, 2120, 1181, 2158},
		"Cone 6": {1220, 2228, 1241, 2266},
		"03":     {1086, 1987, 1101, 2014},
	} {
		set, ok := coneSet(cone)
		require.True(t, ok, cone)
		c := set[1]
		require.Equal(t, want, [4]int{c.slow, fahrenheit(c.slow), c.fast, fahrenheit(c.fast)}, cone)
	}
	set, _ := coneSet("1")
	require.Equal(t, "01", set[0].cone, "01 is the cone before 1")
	for _, no := range []string{"", "5½", "99", "04"} {
		_, ok := coneSet(no)
		require.False(t, ok, "%q has no neighbors in the table", no)
	}
}
