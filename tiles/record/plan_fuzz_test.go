package record

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

// A plan that can be read is written back as it was: no number is lost, none
// changes, whatever else stands in the file.
func FuzzPlan(f *testing.F) {
	for _, seed := range []string{
		"tile,first,second,status\n1,A,,planned\n2,A,B,Fired\n", "\ufefftile;first;second;status;x;y;who\r\nT-007;A;;;12,5;3;=Mo\r\n",
		"# ours\ntile,first,second,status,load,reason\n\n3,A,A,retired,2,\"broke,\nagain\"\n", "tile,first,second,status\n1,A,,\n1,B,,\n", "tile,first,second,status,repeats\n9,A,,fired,1\n",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		dir := folderWith(t, PlanFile, text)
		ts, err := ReadTiles(folder.At(dir))
		if err != nil {
			require.Error(t, WriteTiles(folder.At(dir), []tiles.Tile{{Number: 5, Pair: tiles.Pair{First: "A"}}}), "a plan that cannot be read must not be written over")
			require.Equal(t, string(text), get(t, dir, PlanFile))
			return
		}
		require.NoError(t, WriteTiles(folder.At(dir), ts))
		again, err := ReadTiles(folder.At(dir))
		require.NoError(t, err)
		require.Equal(t, ts, again)
	})
}

func FuzzMeasured(f *testing.F) {
	for _, seed := range []string{
		"tile,zone,l,a,b\n1,whole,50,0,-3.25\n", "tile;zone;l;a;b;photo;spread;part1-l;part1-share;soft\n1;overlap;50,1;0;-3;\"1; b.jpg\";2;40;0,7;yes\n", "tile,zone,l,a,b\n1,first,NaN,0,0\n",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		dir := folderWith(t, MeasuredFile, text)
		rs, err := ReadReadings(folder.At(dir))
		if err != nil {
			return
		}
		require.NoError(t, WriteReadings(folder.At(dir), rs))
		again, err := ReadReadings(folder.At(dir))
		require.NoError(t, err)
		require.Equal(t, rs, again)
		for _, r := range rs {
			require.True(t, r.L >= 0 && r.L <= 100 && r.A >= -200 && r.A <= 200, "%+v", r)
		}
	})
}
