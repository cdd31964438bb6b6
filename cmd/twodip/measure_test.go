package main

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// photoWall is a wall of four planned tiles, with photos of the first two, one
// that is no picture, and one of no tile.
func photoWall(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	put := func(name string, data []byte) {
		path := filepath.Join(dir, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, data, 0o644))
	}
	put("wall.yaml", []byte("name: A wall\n"))
	put("content/glazes.csv", []byte("code,name\nQM,Quarry Milk\nLR,Lamp Rust\n"))
	put("tiles/plan.csv", []byte("tile,first,second,status\n1,QM,,planned\n2,QM,LR,planned\n3,LR,QM,planned\n4,LR,,planned\n"))
	put("tiles/photos/1.jpg", tileJPEG(t, color.RGBA{200, 190, 150, 255}))
	put("tiles/photos/2 back.jpg", tileJPEG(t, color.RGBA{120, 60, 40, 255}))
	put("tiles/photos/3.jpg", []byte("a shopping list"))
	put("tiles/photos/IMG_0004.jpg", tileJPEG(t, color.RGBA{120, 60, 40, 255}))
	put("tiles/photos/.hidden", []byte("x"))
	return dir
}

func tileJPEG(t *testing.T, c color.RGBA) []byte {
	img := image.NewRGBA(image.Rect(0, 0, 300, 400))
	draw.Draw(img, img.Rect, image.NewUniform(color.RGBA{110, 112, 115, 255}), image.Point{}, draw.Src)
	draw.Draw(img, image.Rect(80, 80, 220, 320), image.NewUniform(c), image.Point{}, draw.Src)
	var buf bytes.Buffer
	require.NoError(t, jpeg.Encode(&buf, img, nil))
	return buf.Bytes()
}

func twodip(args ...string) (status int, out, errs string) {
	var o, e strings.Builder
	status = execute(args, strings.NewReader(""), &o, &e)
	return status, o.String(), e.String()
}

func TestMeasureReadsWhatItCanAndNamesTheRest(t *testing.T) {
	dir := photoWall(t)
	status, out, errs := twodip("measure", "--wall", dir)
	assert.Equal(t, 1, status, "a photo could not be read")
	assert.Contains(t, out, "2 photos measured, 0 unchanged, 2 tiles newly fired")
	assert.Contains(t, errs, "tiles/photos/3.jpg: it is not a picture this program knows")
	assert.Contains(t, errs, "tiles/photos/IMG_0004.jpg: its name does not begin with a tile's number")

	rs, err := record.ReadReadings(folder.At(dir))
	require.NoError(t, err)
	one, ok := tiles.ColorOf(rs, 1)
	require.True(t, ok)
	assert.InDelta(t, 77, one.L, 1.5, "L* of 200, 190, 150 in sRGB")
	ts, err := record.ReadTiles(folder.At(dir))
	require.NoError(t, err)
	assert.Equal(t, []tiles.Status{tiles.Fired, tiles.Fired, tiles.Planned, tiles.Planned},
		[]tiles.Status{ts[0].Status, ts[1].Status, ts[2].Status, ts[3].Status})
	for _, name := range []string{"1-1280.jpg", "1-320.jpg", "2-1280.jpg", "2-320.jpg"} {
		assert.FileExists(t, filepath.Join(dir, "build", "pictures", name))
	}
}

func TestMeasureReadsOnlyWhatIsNewOrChanged(t *testing.T) {
	dir := photoWall(t)
	require.NoError(t, os.Remove(filepath.Join(dir, "tiles/photos/3.jpg")))
	require.NoError(t, os.Remove(filepath.Join(dir, "tiles/photos/IMG_0004.jpg")))
	status, _, errs := twodip("measure", "--wall", dir)
	require.Equal(t, 0, status, errs)
	before, err := os.ReadFile(filepath.Join(dir, "tiles/measured.csv"))
	require.NoError(t, err)

	status, out, _ := twodip("measure", "--wall", dir)
	assert.Equal(t, 0, status)
	assert.Contains(t, out, "0 photos measured, 2 unchanged")
	after, err := os.ReadFile(filepath.Join(dir, "tiles/measured.csv"))
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))

	require.NoError(t, os.WriteFile(filepath.Join(dir, "tiles/photos/1.jpg"), tileJPEG(t, color.RGBA{20, 90, 150, 255}), 0o644))
	_, out, _ = twodip("measure", "--wall", dir)
	assert.Contains(t, out, "1 photo measured, 1 unchanged")
	rs, err := record.ReadReadings(folder.At(dir))
	require.NoError(t, err)
	one, _ := tiles.ColorOf(rs, 1)
	assert.Less(t, one.B, -20.0, "blue now")
}

// A wall measured by an earlier version is read again, once, and it is said
// why; what somebody typed in stays as it is.
func TestMeasureReadsAgainWhatAnEarlierVersionRead(t *testing.T) {
	dir := photoWall(t)
	require.NoError(t, os.Remove(filepath.Join(dir, "tiles/photos/3.jpg")))
	require.NoError(t, os.Remove(filepath.Join(dir, "tiles/photos/IMG_0004.jpg")))
	status, out, errs := twodip("measure", "--wall", dir)
	require.Equal(t, 0, status, errs)
	assert.NotContains(t, out, "read again")
	want, err := record.ReadReadings(folder.At(dir))
	require.NoError(t, err)

	old := slices.Clone(want)
	for i := range old {
		_, digest, _ := strings.Cut(old[i].Hash, "-")
		old[i].Hash, old[i].L = digest, old[i].L-1 // as versions before wrote it
	}
	old = append(old, tiles.Reading{Tile: 4, Zone: tiles.ZoneWhole, L: 50})
	require.NoError(t, record.WriteReadings(folder.At(dir), old))

	status, out, errs = twodip("measure", "--wall", dir)
	require.Equal(t, 0, status, errs)
	assert.Contains(t, out, "2 photos read again: this version of twodip measures in another way, so colors and doubts may have moved")
	assert.Contains(t, out, "2 photos measured, 0 unchanged")
	got, err := record.ReadReadings(folder.At(dir))
	require.NoError(t, err)
	assert.Equal(t, append(slices.Clone(want), tiles.Reading{Tile: 4, Zone: tiles.ZoneWhole, L: 50}), got)

	_, out, _ = twodip("measure", "--wall", dir)
	assert.Contains(t, out, "0 photos measured, 2 unchanged")
	assert.NotContains(t, out, "read again")
}

func TestMeasureKeepsReadingsOfPhotosThatAreGone(t *testing.T) {
	dir := photoWall(t)
	twodip("measure", "--wall", dir)
	require.NoError(t, os.Rename(filepath.Join(dir, "tiles/photos/1.jpg"), filepath.Join(dir, "tiles/photos/.1.jpg.icloud")))
	const said = "note: 1 reading is kept of 1 photo that is not here (1.jpg); 1 was left in iCloud: download from there; " +
		"put the photos back, or take the readings out with twodip measure --forget-missing"
	for _, command := range []string{"measure", "check", "measure"} {
		_, out, _ := twodip(command, "--wall", dir)
		assert.Contains(t, out, said, command)
	}
	twodip("build", "--wall", dir)
	page, err := os.ReadFile(filepath.Join(dir, "build/site/tile/1.html"))
	require.NoError(t, err)
	assert.Contains(t, string(page), "Not here any more. The color was measured while it was.")
	status, _, errs := twodip("measure", "2 back.jpg", "--forget-missing", "--wall", dir)
	assert.Equal(t, 1, status)
	assert.Contains(t, errs, "tiles/photos/2 back.jpg: is here, so its readings stay")
	_, out, _ := twodip("measure", "1.jpg", "--forget-missing", "--wall", dir)
	assert.Contains(t, out, "1.jpg is not here: its readings were taken out")
	rs, err := record.ReadReadings(folder.At(dir))
	require.NoError(t, err)
	_, ok := tiles.ColorOf(rs, 1)
	assert.False(t, ok)
}

func TestMeasureOfOnePhoto(t *testing.T) {
	dir := photoWall(t)
	for _, name := range []string{"1.jpg", filepath.Join(dir, "tiles/photos/1.jpg")} {
		status, out, errs := twodip("measure", name, "--wall", dir)
		assert.Equal(t, 0, status, errs)
		assert.Contains(t, out, "1 photo measured")
		require.NoError(t, os.Remove(filepath.Join(dir, "tiles/measured.csv")))
	}
	status, _, errs := twodip("measure", "../../wall.yaml", "--wall", dir)
	assert.Equal(t, 1, status)
	assert.Contains(t, errs, "there is no such photo in tiles/photos")
}

func TestPicturesThatWereDeletedAreMadeAgain(t *testing.T) {
	dir := photoWall(t)
	twodip("measure", "--wall", dir)
	want, err := os.ReadFile(filepath.Join(dir, "build/pictures/1-320.jpg"))
	require.NoError(t, err)
	require.NoError(t, os.RemoveAll(filepath.Join(dir, "build")))
	a := &app{wall: dir, out: &strings.Builder{}, err: &strings.Builder{}}
	wall, err := run.Load(a.folder())
	require.NoError(t, err)
	assert.Equal(t, run.Remade{Made: 2}, run.Pictures(t.Context(), a.folder(), run.KnownFiles(a.folder()), wall, nil))
	got, err := os.ReadFile(filepath.Join(dir, "build/pictures/1-320.jpg"))
	require.NoError(t, err)
	assert.Equal(t, want, got)
}
