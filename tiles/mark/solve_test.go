package mark

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/mark/simulate"
	"github.com/twodip/twodip/tiles/target"
)

// The camera is found from exact corners, whatever its place, lens and focal
// length, though the simulated lens is bent by another formula.
func TestSolveFindsTheCamera(t *testing.T) {
	page, err := target.Mat(matSettings)
	require.NoError(t, err)
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 9))
		c := simulate.Random(r, 4000, 3000, page.Width, page.Height, 40, 0.02)
		var found []Found
		for _, m := range page.Marks {
			f := Found{ID: m.ID}
			for k, at := range m.Corners() {
				f.Quad[k].X, f.Quad[k].Y, _ = c.See(at[0], at[1], 0)
			}
			found = append(found, f)
		}
		v, _, err := solve(found, page.Marks[:], 4000, 3000, Lens35(0).lens(4000, 3000))
		require.NoError(t, err)
		require.Less(t, v.Residual, 0.1)
		for _, at := range page.Tile.Corners() {
			x, y, _ := c.See(at[0], at[1], 8)
			off := v.See(at[0], at[1], 8).Distance(geometry.Point{X: x, Y: y}) / v.Scale(at[0], at[1])
			require.Less(t, off, 0.5, "mm, seed %d", seed)
		}
	}
}

func TestAMarkThatIsElsewhereIsTakenOut(t *testing.T) {
	b, err := target.Board(studio(3))
	require.NoError(t, err)
	r := rand.New(rand.NewPCG(4, 4))
	c := simulate.Random(r, 3000, 4000, b.Width, b.Height, 20, 0.01)
	var found []Found
	for i, m := range b.Marks {
		f := Found{ID: m.ID}
		for k, at := range m.Corners() {
			if i == 2 {
				at[0] -= 60 // hung in the wrong place
			}
			f.Quad[k].X, f.Quad[k].Y, _ = c.See(at[0], at[1], 0)
		}
		found = append(found, f)
	}
	v, kept, err := solve(found, b.Marks, 3000, 4000, Lens35(26).lens(3000, 4000))
	require.NoError(t, err)
	require.Len(t, kept, 7)
	require.Less(t, v.Residual, 0.2)
}
