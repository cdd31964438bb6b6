package plan_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

func needy() tiles.Settings {
	s := kiln()
	s.Tile = tiles.Shape{Width: 50, Height: 100, Thickness: 5, Bare: 10, Shrinkage: 20, Layout: tiles.LayoutEnds, FirstDip: 60, SecondDip: 60}
	s.Dip = tiles.Dip{Thickness: 0.5, Loss: 20, Spares: 10, Bucket: 200, Cup: 100}
	s.Clay = tiles.Clay{Density: 2, Waste: 25}
	return s
}

// By hand. Wet tile at 20 % shrinkage: 62.5 × 125 × 6.25 mm = 0.0488 l; 100
// tiles and 10 spares at 2 kg per litre and 25 % waste: 13.43 kg.
func TestNeedClay(t *testing.T) {
	w := tiles.Wall{Settings: needy(), Glazes: glazesOf(10)}
	w.Tiles = extend(t, w.Settings, w.Glazes, nil).Tiles
	m := plan.Need(w)
	require.Equal(t, 100, m.Tiles)
	require.Equal(t, 10, m.Spares)
	require.InDelta(t, 62.5, m.Wet.Width, 1e-9)
	require.InDelta(t, 110*0.0625*0.125*0.00625*1000*2*1.25, m.Clay, 1e-6)
	w.Settings.Tile.Foot = 35
	foot := plan.Need(w)
	require.InDelta(t, m.Clay*(100+30)/100, foot.Clay, 1e-6, "a foot of 35 mm is 30 mm more wall")
}

// By hand. A dip of 60 mm covers 2 × 55 × 60 + 50 × 5 mm² = 0.685 dm², and one
// of a whole single, 90 mm, 2 × 55 × 90 + 250 mm² = 1.015 dm². One glaze of two
// is alone once, first once and second once: 3 dips, 2.385 dm². At SG 1.45 a
// 0.5 mm coat takes 9.78 ml per dm². The bucket of 200 mm stands 110 mm deep
// under the single, the deepest: 3.46 l. The cup of 100 mm stands 80 mm deep:
// 0.63 l.
func TestNeedGlaze(t *testing.T) {
	w := tiles.Wall{Settings: needy(), Glazes: glazesOf(2)}
	w.Tiles = extend(t, w.Settings, w.Glazes, nil).Tiles
	b := plan.Need(w).Buckets[0]
	require.Equal(t, 3, b.Dips)
	require.InDelta(t, 2.385, b.Area, 1e-9)
	require.InDelta(t, math.Pi/4*4*1.1, b.Fill, 1e-9)
	require.InDelta(t, 2.385*0.00978*1.2+math.Pi/4*0.8, b.Used, 1e-3)
	require.InDelta(t, b.Used+b.Fill, b.Litres, 1e-9)
	require.InDelta(t, b.Litres*0.731, b.Dry, 0.01)
	require.InDelta(t, b.Litres*1.45, b.Dry+b.Water, 1e-9, "what it weighs")
}

func TestNeedCountsOnlyWhatIsToMake(t *testing.T) {
	w := tiles.Wall{Settings: needy(), Glazes: glazesOf(2)}
	w.Tiles = extend(t, w.Settings, w.Glazes, nil).Tiles
	for i := range w.Tiles {
		w.Tiles[i].Status = tiles.Fired
	}
	m := plan.Need(w)
	require.Zero(t, m.Tiles+m.Spares)
	require.Zero(t, m.Clay)
	require.Empty(t, m.Buckets)
}

// A cup must take the tile: a wide one needs a wider cup than the settings say.
func TestCupTakesTheTile(t *testing.T) {
	s := needy()
	s.Tile.Width = 150
	require.Greater(t, plan.CupFill(s), math.Pi/4*1.5*1.5*0.8)
}
