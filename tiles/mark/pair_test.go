package mark

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/mark/simulate"
	"github.com/twodip/twodip/tiles/target"
)

// Any two of a page's marks tell the mat for one tile from the mat for two, from
// up to 50 degrees aside and however the camera is turned.
func TestAnyTwoMarksTellWhichMatItIs(t *testing.T) {
	one, err := target.Mat(matSettings)
	require.NoError(t, err)
	two, err := target.PairMat(matSettings)
	require.NoError(t, err)
	r := rand.New(rand.NewPCG(19, 1))
	for range 300 {
		for i, page := range []target.Page{one, two} {
			c := simulate.Random(r, 4000, 3000, page.Width, page.Height, 50, 0.02)
			for _, use := range [][]int{{0, 1}, {1, 2}, {2, 3}, {0, 3}, {0, 2}, {1, 3}, {0, 1, 2}, {0, 1, 2, 3}} {
				var found []Found
				for _, k := range use {
					f := Found{ID: page.Marks[k].ID}
					for j, at := range page.Marks[k].Corners() {
						x, y, _ := c.See(at[0], at[1], 0)
						f.Quad[j] = geometry.Point{X: x + 0.5*r.NormFloat64(), Y: y + 0.5*r.NormFloat64()}
					}
					found = append(found, f)
				}
				got := PageOf(found, one, two)
				require.Equal(t, i == 1, got.Beside != nil, "page %d by its marks %v", i, use)
			}
		}
	}
}
