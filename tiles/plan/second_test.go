package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// upright is the settings a wall starts with: an upright tile of 60 × 90 mm on a
// foot of 25, dipped from both sides.
func upright() tiles.Settings {
	s := kiln()
	s.Tile = tiles.Shape{Width: 60, Height: 90, Thickness: 6, Foot: 25, Bare: 12, Layout: tiles.LayoutSides, FirstDip: 40, SecondDip: 40, Shrinkage: 12}
	s.Dip = tiles.Dip{Seconds: 3, SecondSeconds: 2, Handling: 25, Opening: 4, Stir: 5, Dry: 10, Coats: 2, Thickness: 0.5, Loss: 15,
		Spares: 10, Bucket: 280, Cup: 120, SecondFrom: tiles.SecondJar}
	s.Clay = tiles.Clay{Density: 2, Waste: 15}
	return s
}

// By hand: the side of 90 mm with its foot of 25 goes in 40 mm deep, with 8 mm
// free all round: 106 × 41 × 48 mm, less the tile's 90 × 6 × 40 and the foot's
// 19 × 6 × 40.
func TestTroughFitsTheTile(t *testing.T) {
	v := plan.Trough(upright().Tile)
	require.Equal(t, [3]float64{106, 41, 48}, [3]float64{v.Length, v.Width, v.Deep})
	require.InDelta(t, (106*41*48-90*6*40-19*6*40)/1e6, v.Litres, 1e-9)
	flat := tiles.Shape{Width: 50, Height: 75, Thickness: 6, Layout: tiles.LayoutEnds, FirstDip: 50, SecondDip: 50}
	v = plan.Trough(flat)
	require.Equal(t, [3]float64{66, 22, 58}, [3]float64{v.Length, v.Width, v.Deep})
}

func wallFor(t *testing.T, s tiles.Settings, n int) tiles.Wall {
	w, _ := placed(t, s, glazesOf(n))
	return w
}

// No more than a tenth of the glaze that leaves the buckets is thrown away, on
// walls of 2 to 30 glazes and on tiles of every layout.
func TestLittleIsThrownAwayByDefault(t *testing.T) {
	shapes := map[string]tiles.Shape{
		"sides": upright().Tile,
		"ends":  {Width: 50, Height: 75, Thickness: 6, Layout: tiles.LayoutEnds, FirstDip: 50, SecondDip: 50, Shrinkage: 12},
		"whole": {Width: 50, Height: 75, Thickness: 6, Bare: 12, Foot: 25, Layout: tiles.LayoutWhole, Shrinkage: 12},
	}
	for name, shape := range shapes {
		s := upright()
		s.Tile = shape
		for _, n := range []int{2, 4, 6, 12, 15, 22, 30} {
			m := plan.Need(wallFor(t, s, n))
			used := 0.0
			for _, b := range m.Buckets {
				used += b.Used
			}
			require.LessOrEqual(t, m.Thrown, 0.1*(used-m.Kept), "%s, %d glazes", name, n)
			require.InDelta(t, float64(n)*plan.Trough(shape).Litres, m.Kept, 1e-9, "a jar a glaze")
		}
	}
}

// Every way covers the same tiles; the cup throws most away, then the trough.
func TestSecondWaysCompare(t *testing.T) {
	w := wallFor(t, upright(), 15)
	by := map[tiles.SecondFrom]plan.SecondWay{}
	for i, way := range plan.SecondWays(w) {
		by[way.From] = way
		require.Equal(t, i == 0, way.Chosen)
		require.NotEmpty(t, way.Says)
		require.NotEmpty(t, way.Risks)
		require.Positive(t, way.Minutes)
	}
	require.Len(t, by, 5)
	require.Greater(t, by["cup"].Thrown, 2*by["trough"].Thrown)
	require.Greater(t, by["trough"].Thrown, 10*by["jar"].Thrown)
	require.Zero(t, by["trough"].Kept)
	require.Greater(t, by["bucket"].Minutes, by["jar"].Minutes, "sieving takes longer than a trough")
	require.Greater(t, by["brush"].Minutes, by["jar"].Minutes)
	require.InDelta(t, by["cup"].Litres-by["cup"].Thrown, by["jar"].Litres-by["jar"].Thrown-by["jar"].Kept, 1e-6)
}
