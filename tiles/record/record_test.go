package record

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

func put(t *testing.T, dir, file, text string) {
	t.Helper()
	path := filepath.Join(dir, filepath.FromSlash(file))
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

func get(t *testing.T, dir, file string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(file)))
	require.NoError(t, err)
	return string(b)
}

func TestAWallWithoutFilesHasNothingYet(t *testing.T) {
	ts, err := ReadTiles(folder.At(t.TempDir()))
	assert.NoError(t, err)
	assert.Empty(t, ts)
	rs, err := ReadReadings(folder.At(t.TempDir()))
	assert.NoError(t, err)
	assert.Empty(t, rs)
}

func TestTilesComeBack(t *testing.T) {
	dir := t.TempDir()
	want := []tiles.Tile{
		{Number: 1, Pair: tiles.Pair{First: "A"}, Status: tiles.Fired, Load: 1, Shelf: "top", X: 12.5, Y: 30},
		{Number: 7, Pair: tiles.Pair{First: "A", Second: "B"}, Status: tiles.Planned, Repeats: 3, Batch: "B-2", Reason: "remixed, =look"},
		{Number: 8, Pair: tiles.Pair{First: "B", Second: "B"}, Status: tiles.Skipped},
	}
	require.NoError(t, WriteTiles(folder.At(dir), want))
	got, err := ReadTiles(folder.At(dir))
	require.NoError(t, err)
	assert.Equal(t, want, got)
	assert.Regexp(t, `^tile,first,second,status,`, get(t, dir, PlanFile))
}

func TestAPlanKeepsWhatItsOwnerAdded(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, PlanFile, "# Second row is Mia's\ntile,first,second,status,who\n007,B,A,Planned,Mia\n2,A,,,Jo\n9,C,,fired,\n")
	ts, err := ReadTiles(folder.At(dir))
	require.NoError(t, err)
	require.Len(t, ts, 3)
	ts[1].Status, ts[1].Load = tiles.Fired, 2
	ts = append(ts[:2], tiles.Tile{Number: 10, Pair: tiles.Pair{First: "D"}, Status: tiles.Planned})
	require.NoError(t, WriteTiles(folder.At(dir), ts))
	assert.Equal(t, "# Second row is Mia's\ntile,first,second,status,who,load\n007,B,A,Planned,Mia,\n2,A,,fired,Jo,2\n9,C,,fired,,\n10,D,,planned,,\n",
		get(t, dir, PlanFile), "tile 9 was not given to WriteTiles and stays: a number is never lost")
}

func TestAPlanSaysWhatIsWrong(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, PlanFile, "tile,first,second,status\n1,A,,hung\nx,,,fired\n3,A,,fired\n3,B,,fired\n")
	_, err := ReadTiles(folder.At(dir))
	assert.EqualError(t, err, `tiles/plan.csv:2: status "hung" is not one of planned, fired, retired, skipped
tiles/plan.csv:3: tile "x" is not a tile number (1 to 99999)
tiles/plan.csv:3: first is empty: every tile carries a first glaze
tiles/plan.csv:5: tile 3 also stands in line 4: a number is given once; remove one of the two rows`)
	before := get(t, dir, PlanFile)
	assert.Error(t, WriteTiles(folder.At(dir), nil))
	assert.Equal(t, before, get(t, dir, PlanFile), "a plan that cannot be read is left alone")
}

func TestReadingsComeBack(t *testing.T) {
	dir := t.TempDir()
	want := []tiles.Reading{
		{Tile: 7, Zone: tiles.ZoneOverlap, L: 48.125, A: -8, B: 0, Photo: "7 a.jpg", Spread: 2.5, Correction: "24 patches", Doubt: 1.75,
			Class: tiles.ClassChart, Profile: "Display P3", Kept: 0.9375, Soft: true, Found: "marks", Taken: "2026-01-02 10:00", Hash: "abc", Warning: "a, b",
			Parts: []tiles.Part{{L: 40, A: 1, B: 0, Share: 0.7}, {L: 60, A: 0, B: 2.5, Share: 0.3}}},
		{Tile: 7, Zone: tiles.ZoneOverlap, L: 0, A: 0, B: 0, Photo: "7 b.jpg"},
	}
	require.NoError(t, WriteReadings(folder.At(dir), want))
	got, err := ReadReadings(folder.At(dir))
	require.NoError(t, err)
	assert.Equal(t, want, got)
	require.NoError(t, WriteReadings(folder.At(dir), want[1:]))
	got, err = ReadReadings(folder.At(dir))
	require.NoError(t, err)
	assert.Equal(t, want[1:], got)
}

func TestReadingsTypedByHand(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, MeasuredFile, "tile;zone;l;a;b;lamp\n7;overlap;48,1;-8;0;D50\n")
	rs, err := ReadReadings(folder.At(dir))
	require.NoError(t, err)
	assert.Equal(t, []tiles.Reading{{Tile: 7, Zone: tiles.ZoneOverlap, L: 48.1, A: -8}}, rs)
	rs[0].L = 48.5
	require.NoError(t, WriteReadings(folder.At(dir), rs))
	assert.Equal(t, "tile;zone;l;a;b;lamp\n7;overlap;48,5;-8;0;D50\n", get(t, dir, MeasuredFile))
	put(t, dir, MeasuredFile, "tile,zone,l,a,b\n7,middle,,1,900\n")
	_, err = ReadReadings(folder.At(dir))
	assert.EqualError(t, err, `tiles/measured.csv:2: zone "middle" is not one of first, overlap, second, whole
tiles/measured.csv:2: l "" is not a number
tiles/measured.csv:2: b "900" is out of range: l is 0 to 100, a and b are -200 to 200`)
}
