package run

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/record"
)

// photoWall is a wall with so many planned tiles and a photo of each.
func photoWall(t *testing.T, count int) folder.Folder {
	t.Helper()
	dir, err := folder.New(t.TempDir())
	require.NoError(t, err)
	files := map[string][]byte{"wall.yaml": []byte("name: A wall\n"), "content/glazes.csv": []byte("code,name\nQM,Quarry Milk\n")}
	plan := "tile,first,second,status\n"
	for i := range count {
		plan += fmt.Sprintf("%d,QM,,planned\n", i+1)
		files[fmt.Sprintf("%s/%d.jpg", folder.Photos, i+1)] = tileJPEG(t, color.RGBA{uint8(200 - 10*i), 190, 150, 255})
	}
	files[record.PlanFile] = []byte(plan)
	require.NoError(t, dir.Fill(files))
	return dir
}

func tileJPEG(t *testing.T, c color.RGBA) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 300, 400))
	draw.Draw(img, img.Rect, image.NewUniform(color.RGBA{110, 112, 115, 255}), image.Point{}, draw.Src)
	draw.Draw(img, image.Rect(80, 80, 220, 320), image.NewUniform(c), image.Point{}, draw.Src)
	var buf bytes.Buffer
	require.NoError(t, jpeg.Encode(&buf, img, nil))
	return buf.Bytes()
}

// Stopped half-way, the photos in hand are finished and kept, what is left is
// said, and the next run goes on from there to the same end as one in one go.
func TestMeasureStopsWithoutLossAndGoesOn(t *testing.T) {
	const count = 8
	dir, whole := photoWall(t, count), photoWall(t, count)
	_, err := Measure(t.Context(), whole, MeasureWish{})
	require.NoError(t, err)

	ctx, stop := context.WithCancel(t.Context())
	did, err := Measure(ctx, dir, MeasureWish{Tell: func(e Event) {
		if e.Photo != nil && e.Done == 2 {
			stop()
		}
	}})
	require.NoError(t, err)
	assert.GreaterOrEqual(t, did.Measured, 2)
	assert.NotEmpty(t, did.Left)
	assert.Equal(t, count, did.Measured+len(did.Left))
	kept, err := record.ReadReadings(dir)
	require.NoError(t, err)
	assert.Len(t, kept, did.Readings)
	ts, err := record.ReadTiles(dir)
	require.NoError(t, err)
	fired := 0
	for _, one := range ts {
		if one.Status == tiles.Fired {
			fired++
		}
	}
	assert.Equal(t, did.Fired, fired)

	again, err := Measure(t.Context(), dir, MeasureWish{})
	require.NoError(t, err)
	assert.Equal(t, len(did.Left), again.Measured)
	assert.Equal(t, did.Measured, again.Unchanged)
	for _, name := range []string{record.MeasuredFile, record.PlanFile} {
		want, err := whole.Read(name, 1<<20)
		require.NoError(t, err)
		got, err := dir.Read(name, 1<<20)
		require.NoError(t, err)
		assert.Equal(t, string(want), string(got), name)
	}
}

// A fault of ours in one photo is that photo's problem; a color that no surface
// has is no row; all the others are read.
func TestAFaultInOnePhotoLeavesTheOthers(t *testing.T) {
	dir := photoWall(t, 5)
	m, err := newMeasuring(dir, MeasureWish{})
	require.NoError(t, err)
	read := m.one
	m.one = func(r *measure.Reader, data []byte, ask measure.Ask) (measure.Result, error) {
		res, err := read(r, data, ask)
		switch ask.Photo {
		case "2.jpg":
			return res, fmt.Errorf("%v", []int{}[len(res.Readings)])
		case "3.jpg":
			res.Readings[0].L = 139.3
		case "4.jpg":
			res.Readings[0].Doubt = math.Inf(1)
		}
		return res, err
	}
	k := newKeeping(dir, MeasureWish{}, m)
	m.read(t.Context(), m.photos, func(o outcome) { require.NoError(t, k.take(o)) })
	require.NoError(t, k.finish(t.Context()))
	assert.Equal(t, 2, k.did.Measured)
	assert.Equal(t, 0, k.did.Unchanged)
	require.Len(t, k.did.Problems, 3)
	assert.Contains(t, k.did.Problems[0].Error(), "tiles/photos/2.jpg: twodip itself failed on it (runtime error: index out of range")
	assert.Contains(t, k.did.Problems[1].Error(), `tiles/photos/3.jpg: tile 3 cannot be read from it: l "139.3" is out of range`)
	assert.Contains(t, k.did.Problems[2].Error(), "tiles/photos/4.jpg: tile 4 cannot be read from it: doubt")
	rs, err := record.ReadReadings(dir)
	require.NoError(t, err)
	assert.Len(t, rs, 2)
}

// Readings stand in the table before the run is at its end.
func TestReadingsAreKeptAsTheyCome(t *testing.T) {
	dir := photoWall(t, 4)
	m, err := newMeasuring(dir, MeasureWish{})
	require.NoError(t, err)
	k := newKeeping(dir, MeasureWish{}, m)
	seen := 0
	m.read(t.Context(), m.photos, func(o outcome) {
		k.pause = 0
		require.NoError(t, k.take(o))
		seen++
		kept, err := record.ReadReadings(dir)
		require.NoError(t, err)
		assert.Len(t, kept, seen)
	})
}

// Every photo is told of, with what was read from it or why nothing was.
func TestMeasureTellsOfEveryPhoto(t *testing.T) {
	dir := photoWall(t, 3)
	require.NoError(t, os.WriteFile(dir.Path(folder.Photos+"/2.jpg"), []byte("a shopping list"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir.Path(folder.Photos), "3 gr\xfcn.jpg"), tileJPEG(t, color.RGBA{9, 99, 9, 255}), 0o644))
	told := map[string]*PhotoRead{}
	did, err := Measure(t.Context(), dir, MeasureWish{Tell: func(e Event) {
		assert.LessOrEqual(t, e.Done, e.Total)
		if e.Photo != nil {
			told[e.Photo.Photo] = e.Photo
		}
	}})
	require.NoError(t, err)
	assert.Len(t, told, 4)
	require.Len(t, told["1.jpg"].Readings, 1)
	assert.Equal(t, tiles.Number(1), told["1.jpg"].Readings[0].Tile)
	assert.NotEmpty(t, told["1.jpg"].Readings[0].Found)
	assert.Contains(t, told["2.jpg"].Problem.Error(), "it is not a picture this program knows")
	assert.Contains(t, told["3 gr\xfcn.jpg"].Problem.Error(), "the name is not in UTF-8")
	assert.Len(t, did.Problems, 2)
	assert.Equal(t, 2, did.Measured)

	again, err := Measure(t.Context(), dir, MeasureWish{Tell: func(e Event) {
		if e.Photo != nil {
			told[e.Photo.Photo] = e.Photo
		}
	}})
	require.NoError(t, err)
	assert.True(t, told["1.jpg"].Unchanged)
	assert.Equal(t, 2, again.Unchanged)
}

// A photo that can be read no longer is counted once: never "-1 unchanged".
func TestPhotosAreCountedOnce(t *testing.T) {
	dir := photoWall(t, 2)
	_, err := Measure(t.Context(), dir, MeasureWish{})
	require.NoError(t, err)
	require.NoError(t, os.RemoveAll(dir.Path("build")))
	require.NoError(t, os.WriteFile(dir.Path(folder.Photos+"/1.jpg"), []byte("cut short"), 0o644))
	did, err := Measure(t.Context(), dir, MeasureWish{})
	require.NoError(t, err)
	assert.Equal(t, []int{0, 1}, []int{did.Measured, did.Unchanged})
	assert.NotEmpty(t, did.Problems)
}

// A wall that is renamed while it is measured is said to be gone, and does not
// come up again under its old name.
func TestAWallRenamedWhileMeasuringLeavesNoGhost(t *testing.T) {
	dir := photoWall(t, 3)
	after := dir.Dir() + " after"
	_, err := Measure(t.Context(), dir, MeasureWish{Tell: func(e Event) {
		if e.Photo != nil && e.Done == 1 {
			require.NoError(t, os.Rename(dir.Dir(), after))
		}
	}})
	require.Error(t, err)
	assert.Contains(t, err.Error(), "is not there")
	_, err = os.Stat(dir.Dir())
	assert.ErrorIs(t, err, os.ErrNotExist)
	did, err := Measure(t.Context(), folder.At(after), MeasureWish{})
	require.NoError(t, err)
	assert.Equal(t, 3, did.Measured+did.Unchanged)
}
