package record

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

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
		{Number: 7, Pair: tiles.Pair{First: "A", Second: "B"}, Status: tiles.Planned, Repeats: 3, Batches: []tiles.BatchName{tiles.NameBatch("B", "B-2")}, Reason: "remixed, =look"},
		{Number: 8, Pair: tiles.Pair{First: "B", Second: "B"}, Status: tiles.Skipped},
	}
	require.NoError(t, WriteTiles(folder.At(dir), want))
	got, err := ReadTiles(folder.At(dir))
	require.NoError(t, err)
	assert.Equal(t, want, got)
	assert.Regexp(t, `^tile,first,second,status,`, get(t, dir, PlanFile))
}

// Rows as earlier versions wrote them: two reasons in one cell, "due again"
// before the batches, labels with and without the code.
func TestAnOlderPlanIsRead(t *testing.T) {
	dir := t.TempDir()
	old := "tile,first,second,status,repeats,batch,reason,was\n" +
		"1,A,,retired,,,glaze A is retired; before that: Mia's favorite,fired\n" +
		"2,A,,planned,1,A 2 + B-3,\"due again: batch A 2 is new, batch B-3 no longer matches\",\n" +
		"3,A,B,retired,1,A 2,glaze A is retired; before that: due again: batch A 2 is new,planned\n" +
		"4,B,,planned,,,before that: nothing,\n"
	put(t, dir, PlanFile, old)
	ts, err := ReadTiles(folder.At(dir))
	require.NoError(t, err)
	assert.Equal(t, []string{"glaze A is retired", "Mia's favorite"}, []string{ts[0].Reason, ts[0].Earlier})
	assert.Equal(t, "batch A 2 is new, batch B-3 no longer matches", ts[1].Reason)
	assert.Equal(t, "A 2 + B-3", ts[1].SayBatches())
	assert.True(t, ts[1].For(tiles.NameBatch("a", "2")))
	assert.Equal(t, []string{"glaze A is retired", "batch A 2 is new"}, []string{ts[2].Reason, ts[2].Earlier})
	assert.Equal(t, "before that: nothing", ts[3].Reason)
	require.NoError(t, WriteTiles(folder.At(dir), ts))
	assert.Equal(t, old, get(t, dir, PlanFile), "what says the same stays as it stands")
}

// Whatever the program may put into a plan it reads back.
func TestAnyPlanComesBack(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		dir := t.TempDir()
		word := rapid.StringMatching(`|[A-Za-zé+";:, -]{0,12}[a-z]`)
		var want []tiles.Tile
		for n := range rapid.IntRange(1, 4).Draw(r, "tiles") {
			one := tiles.Tile{Number: tiles.Number(n + 1), Pair: tiles.Pair{First: "KM", Second: rapid.SampledFrom([]string{"", "KM", "QM"}).Draw(r, "second")},
				Status: rapid.SampledFrom(tiles.Statuses).Draw(r, "status"), Reason: strings.TrimSpace(word.Draw(r, "reason"))}
			if one.Status == tiles.Skipped {
				one.Was, one.Earlier = tiles.Fired, strings.TrimSpace(word.Draw(r, "earlier"))
			}
			if n > 0 {
				one.Repeats = 1
				for range rapid.IntRange(0, 3).Draw(r, "batches") {
					one.Batches = append(one.Batches, tiles.NameBatch("KM", strings.TrimSpace(rapid.StringMatching(`(KM|k)?[-+" ]?[0-9a-c]{1,3}`).Draw(r, "batch"))))
				}
				one.Control = len(one.Batches) == 0
			}
			want = append(want, one)
		}
		if _, err := os.Stat(filepath.Join(dir, PlanFile)); err == nil {
			require.NoError(t, os.Remove(filepath.Join(dir, PlanFile)))
		}
		require.NoError(t, WriteTiles(folder.At(dir), want))
		got, err := ReadTiles(folder.At(dir))
		require.NoError(t, err)
		require.Equal(t, want, got)
	})
}

// A row that could not be read again is not written.
func TestWhatCannotBeReadIsNotWritten(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, WriteTiles(folder.At(dir), []tiles.Tile{{Number: 1, Pair: tiles.Pair{First: "A"}, Status: tiles.Planned}}))
	whole := get(t, dir, PlanFile)
	for _, bad := range []tiles.Tile{
		{Number: tiles.MaxNumber + 1, Pair: tiles.Pair{First: "A"}, Status: tiles.Planned}, {Number: 2, Status: tiles.Planned},
		{Number: 2, Pair: tiles.Pair{First: "A"}, Status: "lost"}, {Number: 2, Pair: tiles.Pair{First: "A"}, Status: tiles.Planned, X: math.NaN()},
	} {
		assert.Error(t, WriteTiles(folder.At(dir), []tiles.Tile{{Number: 1, Pair: tiles.Pair{First: "A"}, Status: tiles.Planned}, bad}), "%+v", bad)
		assert.Equal(t, whole, get(t, dir, PlanFile))
	}
	reading := tiles.Reading{Tile: 1, Zone: tiles.ZoneWhole, L: 139.3}
	assert.Error(t, WriteReadings(folder.At(dir), []tiles.Reading{reading}))
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
