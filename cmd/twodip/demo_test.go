package main

import (
	"bytes"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/content/demo"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/drift"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// demoTruth makes the demo's wall with its year, photographs those of its tiles
// that are wanted, measures them, and says what colors they were made with.
func demoTruth(t *testing.T, wanted func(tiles.Tile) bool) (*app, map[tiles.Number]demo.Truth) {
	t.Helper()
	a := &app{in: bytes.NewReader(nil), out: io.Discard, err: io.Discard, wall: filepath.Join(t.TempDir(), "demo")}
	require.NoError(t, produce.InventedWall(a.wall))
	require.NoError(t, a.plan(planFlags{}))
	wall, err := run.Load(a.folder())
	require.NoError(t, err)
	all := demo.Year(wall.Tiles)
	require.NoError(t, record.WriteTiles(a.folder(), all))
	require.NoError(t, a.folder().Fill(demo.Records()))
	require.NoError(t, os.MkdirAll(a.folder().Path(folder.Photos), 0o755))
	studio := demo.NewStudio(wall.Settings.Tile, demo.Seed)
	truths := map[tiles.Number]demo.Truth{}
	for _, one := range all {
		if !wanted(one) {
			continue
		}
		file, err := os.Create(filepath.Join(a.folder().Path(folder.Photos), one.Number.String()+".jpg"))
		require.NoError(t, err)
		truths[one.Number], err = studio.JPEG(file, one)
		require.NoError(t, err)
		require.NoError(t, file.Close())
	}
	require.Equal(t, 0, execute([]string{"measure", "--wall", a.wall}, a.in, a.out, a.err))
	return a, truths
}

// someTiles are a few of the wall's pairs, and what the re-tests are judged by;
// TWODIP_LONG takes all.
func someTiles(one tiles.Tile) bool {
	switch {
	case os.Getenv("TWODIP_LONG") != "":
		return true
	case one.Own() && one.Single():
		return slices.Contains([]string{demo.Control, "TB", "PP"}, one.First)
	case one.Own():
		return one.Number%9 == 0
	}
	return one.Load <= 3 || one.Load == 13 || one.Load == 16
}

// The demo knows the colors it was made with: what measure reads from its
// photos must be those, and within the doubt that it states. The doubt is that
// of phones as they are; the demo's camera is better, so more than 95 % lie
// within it.
func TestTheDemosColorsAreMeasuredRight(t *testing.T) {
	t.Parallel()
	a, truths := demoTruth(t, someTiles)
	holdToTruth(t, a, truths)
	holdToStory(t, a)
}

func holdToTruth(t *testing.T, a *app, truths map[tiles.Number]demo.Truth) {
	t.Helper()
	readings, err := record.ReadReadings(a.folder())
	require.NoError(t, err)
	byZone := map[tiles.Zone][]float64{}
	var all []float64
	inside := 0
	for _, r := range readings {
		truth, ok := truths[r.Tile][r.Zone]
		require.True(t, ok, "tile %d has no zone %s", r.Tile, r.Zone)
		d := color.DE00(color.Lab{L: r.L, A: r.A, B: r.B}, truth)
		all, byZone[r.Zone] = append(all, d), append(byZone[r.Zone], d)
		if d > 2 {
			t.Logf("tile %d %s: ΔE00 %.2f, measured %.1f %.1f %.1f, true %.1f %.1f %.1f", r.Tile, r.Zone, d, r.L, r.A, r.B, truth.L, truth.A, truth.B)
		}
		if d <= r.Doubt {
			inside++
		}
	}
	for zone, ds := range byZone {
		t.Logf("%-8s %3d readings: ΔE00 median %.2f, 95 %% within %.2f", zone, len(ds), quantile(ds, 0.5), quantile(ds, 0.95))
	}
	share := float64(inside) / float64(len(all))
	t.Logf("all      %3d readings: ΔE00 median %.2f, 95 %% within %.2f, largest %.2f; %.1f %% within their doubt",
		len(all), quantile(all, 0.5), quantile(all, 0.95), quantile(all, 1), 100*share)
	assert.Less(t, quantile(all, 0.5), 1.0)
	assert.Less(t, quantile(all, 0.95), 2.0)
	assert.GreaterOrEqual(t, share, 0.93)
}

// holdToStory holds what drift says to what was planted: one bucket moved a
// little, one did not, and one firing was hot on the control's shelf.
func holdToStory(t *testing.T, a *app) {
	t.Helper()
	r, err := run.LoadRecords(a.folder())
	require.NoError(t, err)
	d := r.Drift()
	states := map[string]drift.Bucket{}
	for _, b := range d.Buckets {
		states[b.Glaze] = b
	}
	// Each of the demo's tiles has a photo of its own, in a light of its own.
	assert.Equal(t, drift.Unclear, states["PP"].State, states["PP"].Words)
	assert.NotEqual(t, drift.Matches, states["TB"].State, states["TB"].Words)
	require.Len(t, states["TB"].Retests, 1)
	again := states["TB"].Retests[0]
	assert.True(t, again.Parted)
	assert.Equal(t, "2026-01-31", again.Day, "load 13 of the plan was firing G13")
	assert.InDelta(t, 3.5, again.DE00, 1.5)
	assert.Greater(t, again.L, 1.0, "lighter")
	assert.Greater(t, again.B, 1.0, "less blue")
	for _, shift := range d.Shifts {
		if shift.Load == 16 {
			assert.Less(t, shift.L, -2.5, "the hot shelf made it darker")
			continue
		}
		assert.Less(t, math.Abs(shift.L), 2.0, "load %d", shift.Load)
	}
}

// quantile is the value below which so large a share of the list lies.
func quantile(list []float64, share float64) float64 {
	sorted := slices.Sorted(slices.Values(list))
	return sorted[int(math.Ceil(share*float64(len(sorted)-1)))]
}
