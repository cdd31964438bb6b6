package run

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// A hundred photos moved away, renamed, left in a cloud and put back: no
// reading is lost before it is asked for, and none stands twice.
func TestNoReadingIsLostWithItsPhoto(t *testing.T) {
	const count = 6
	r := rand.New(rand.NewPCG(20, 4))
	dir := photoWall(t, count)
	outside := t.TempDir()
	at := map[int]string{} // where each tile's photo is
	for n := 1; n <= count; n++ {
		at[n] = dir.Path(fmt.Sprintf("%s/%d.jpg", folder.Photos, n))
	}
	_, err := Measure(t.Context(), dir, MeasureWish{})
	require.NoError(t, err)
	for move := range 100 {
		for range 1 + r.IntN(3) {
			n := 1 + r.IntN(count)
			to := []string{
				filepath.Join(outside, fmt.Sprintf("%d.jpg", n)),
				dir.Path(fmt.Sprintf("%s/.%d.jpg.icloud", folder.Photos, n)),
				dir.Path(fmt.Sprintf("%s/%d take %d.jpg", folder.Photos, n, move)),
				dir.Path(fmt.Sprintf("%s/shelf %d/%d.jpg", folder.Photos, r.IntN(3), n)),
				dir.Path(fmt.Sprintf("%s/%d.jpg", folder.Photos, n)),
			}[r.IntN(5)]
			require.NoError(t, os.MkdirAll(filepath.Dir(to), 0o755))
			require.NoError(t, os.Rename(at[n], to))
			at[n] = to
		}
		if r.IntN(10) == 0 {
			require.NoError(t, os.RemoveAll(dir.Path("build")))
		}
		did, err := Measure(t.Context(), dir, MeasureWish{})
		require.NoError(t, err)
		assert.Empty(t, did.Problems)
		kept, err := record.ReadReadings(dir)
		require.NoError(t, err)
		require.Len(t, kept, count, "move %d: each photo has one reading", move)
		missing := 0
		read := map[tiles.Number]bool{}
		for _, one := range kept {
			read[one.Tile] = true
			assert.Equal(t, !dir.Has(folder.Photos+"/"+one.Photo), one.Away, one.Photo)
			if one.Away {
				missing++
			}
		}
		require.Len(t, read, count, "move %d: of every tile", move)
		assert.Equal(t, missing, did.Kept)
		assert.Len(t, did.Missing, missing)
	}
	require.NoError(t, os.Rename(at[1], filepath.Join(outside, "1.jpg")))
	did, err := Measure(t.Context(), dir, MeasureWish{Forget: true})
	require.NoError(t, err)
	kept, err := record.ReadReadings(dir)
	require.NoError(t, err)
	assert.NotEmpty(t, did.Gone)
	assert.Len(t, kept, count-len(did.Gone))
}

// A photo renamed to another tile is read as that one; what was read of the
// first stays, and it is said that it is the same photo. A folder of photos that
// is not there at all, as when a drive is not connected, loses nothing.
func TestAPhotoRenamedToAnotherTileKeepsBoth(t *testing.T) {
	dir := photoWall(t, 3)
	require.NoError(t, os.Remove(dir.Path(folder.Photos+"/3.jpg")))
	_, err := Measure(t.Context(), dir, MeasureWish{})
	require.NoError(t, err)
	require.NoError(t, os.Rename(dir.Path(folder.Photos+"/2.jpg"), dir.Path(folder.Photos+"/3.jpg")))
	did, err := Measure(t.Context(), dir, MeasureWish{})
	require.NoError(t, err)
	assert.Equal(t, []string{"2.jpg is 3.jpg now"}, did.Renamed)
	assert.Equal(t, []string{"2.jpg"}, did.Missing)
	kept, err := record.ReadReadings(dir)
	require.NoError(t, err)
	assert.Len(t, kept, 3)

	require.NoError(t, os.Rename(dir.Path(folder.Photos), dir.Path("tiles/elsewhere")))
	_, err = Measure(t.Context(), dir, MeasureWish{})
	require.NoError(t, err)
	kept, err = record.ReadReadings(dir)
	require.NoError(t, err)
	assert.Len(t, kept, 3)
	for _, one := range kept {
		assert.True(t, one.Away)
	}
}

// The readings of one photo that is gone are taken out by its name, however it
// is written; those of another that is gone stay, and so do those of one that is
// here.
func TestForgetsOnePhotoByItsName(t *testing.T) {
	dir := photoWall(t, 4)
	_, err := Measure(t.Context(), dir, MeasureWish{})
	require.NoError(t, err)
	for _, gone := range []string{"1.jpg", "2.jpg", "3.jpg"} {
		require.NoError(t, os.Remove(dir.Path(folder.Photos+"/"+gone)))
	}
	did, err := Measure(t.Context(), dir, MeasureWish{Forget: true, Photos: []string{"1.jpg", folder.Photos + "/3.jpg"}})
	require.NoError(t, err)
	assert.Equal(t, []string{"1.jpg", "3.jpg"}, did.Gone)
	kept, err := record.ReadReadings(dir)
	require.NoError(t, err)
	require.Len(t, kept, 2)
	assert.Equal(t, []string{"2.jpg", "4.jpg"}, []string{kept[0].Photo, kept[1].Photo})

	_, err = Measure(t.Context(), dir, MeasureWish{Forget: true, Photos: []string{"2.jpg", "4.jpg"}})
	require.ErrorContains(t, err, "tiles/photos/4.jpg: is here, so its readings stay")
	_, err = Measure(t.Context(), dir, MeasureWish{Forget: true, Photos: []string{"9.jpg"}})
	require.ErrorContains(t, err, "tiles/photos/9.jpg: no reading is of a photo of that name")
	after, err := record.ReadReadings(dir)
	require.NoError(t, err)
	assert.Equal(t, kept, after, "all or nothing")
}
