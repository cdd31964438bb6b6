package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// fired is the plan of n glazes with every tile fired in load 1.
func fired(t *testing.T, n int) []tiles.Tile {
	ts := extend(t, tiles.Settings{}, glazesOf(n), nil).Tiles
	for i := range ts {
		ts[i].Status, ts[i].Load = tiles.Fired, 1
	}
	return ts
}

var all = tiles.Settings{Retest: tiles.RetestAll}

var mixed = []tiles.Batch{
	{Glaze: "A", Name: "1", MixedOn: "2026-01-10"},
	{Glaze: "B", Name: "1", MixedOn: "2026-01-10"},
	{Glaze: "A", Name: "2", MixedOn: "2026-03-02"},
}

func TestDueAfterARemix(t *testing.T) {
	have := fired(t, 3)
	due := plan.Due(all, have, mixed, nil)
	require.Equal(t, have, due[:9])
	require.Len(t, due[9:], 5, "A alone, and A with B and C in both orders")
	for i, r := range due[9:] {
		require.Equal(t, tiles.Number(10+i), r.Number)
		require.True(t, r.Has("A"))
		require.Equal(t, have[r.Repeats-1].Pair, r.Pair)
		require.Equal(t, tiles.Planned, r.Status)
		require.Equal(t, "A 2", r.SayBatches())
		require.Equal(t, "due again: batch A 2 is new", r.SayReason())
	}
	require.Equal(t, due, plan.Due(all, due, mixed, nil), "once is enough")
}

func TestDueAsTheSettingsSay(t *testing.T) {
	have := fired(t, 3)
	require.Len(t, plan.Due(tiles.Settings{}, have, mixed, nil), 10, "its single, where nothing else is said")
	require.Len(t, plan.Due(tiles.Settings{Retest: tiles.RetestSingle}, have, mixed, nil), 10)
	require.Len(t, plan.Due(tiles.Settings{Retest: tiles.RetestNone}, have, mixed, nil), 9)
}

func TestDueNeedsAFiredTileAndALaterBatch(t *testing.T) {
	have := fired(t, 3)
	require.Len(t, plan.Due(all, have, mixed[:2], nil), 9, "the first batch is the wall's own")
	for i := range have {
		have[i].Status = tiles.Planned
	}
	require.Len(t, plan.Due(all, have, mixed, nil), 9, "what is not fired will be made from the new batch")
}

func TestDueLeavesWhatWasFiredFromTheNewBatch(t *testing.T) {
	after := []tiles.Load{{Name: "1", Date: "2026-03-09"}}
	require.Len(t, plan.Due(all, fired(t, 3), mixed, after), 9)
	before := []tiles.Load{{Name: "1", Date: "2026-02-09"}}
	require.Len(t, plan.Due(all, fired(t, 3), mixed, before), 14)
}

// One waiting re-test serves a second remix; a fired one does not.
func TestDueTwice(t *testing.T) {
	due := plan.Due(all, fired(t, 2), mixed, nil)
	require.Len(t, due, 4+3)
	both := append(append([]tiles.Batch(nil), mixed...), tiles.Batch{Glaze: "B", Name: "2", MixedOn: "2026-03-03"})
	again := plan.Due(all, due, both, nil)
	require.Len(t, again, 4+4, "only B alone is new")
	require.Equal(t, "A 2 + B 2", again[5].SayBatches())
	require.Equal(t, again, plan.Due(all, again, both, nil))
	for i := range again {
		again[i].Status = tiles.Fired
	}
	both = append(both, tiles.Batch{Glaze: "B", Name: "B-3", MixedOn: "2026-03-30"})
	require.Equal(t, "due again: batch B-3 is new", plan.Due(all, again, both, nil)[8].SayReason())
	third := append(both[:4], tiles.Batch{Glaze: "A", Name: "3", MixedOn: "2026-04-01"})
	require.Len(t, plan.Due(all, again, third, nil), 8+3)
}

// A batch that makes another color asks for every tile of its glaze again, also
// where a new batch alone asks for the single only.
func TestChangedAsksForEveryTile(t *testing.T) {
	have := fired(t, 3)
	off := []tiles.Batch{{Glaze: "A", Name: "2", MixedOn: "2026-03-01"}}
	require.Len(t, plan.Due(tiles.Settings{}, have, mixed, nil), 10)
	due := plan.Changed(tiles.Settings{}, have, off, nil)
	require.Len(t, due, 9+5)
	require.Equal(t, "due again: batch A 2 no longer matches", due[9].SayReason())
	require.Equal(t, due, plan.Changed(tiles.Settings{}, due, off, nil), "once is enough")
	require.Len(t, plan.Changed(tiles.Settings{Retest: tiles.RetestNone}, have, off, nil), 9)
	require.Len(t, plan.Changed(tiles.Settings{}, have, []tiles.Batch{{Glaze: "A"}}, nil), 9, "a bucket without a record has no batch to name")
}

// A batch written again is a check of its specific gravity, not a remix.
func TestDueTakesACheckForNoRemix(t *testing.T) {
	check := []tiles.Batch{{Glaze: "A", Name: "1", MixedOn: "2026-01-01"}, {Glaze: "a", Name: "1", MixedOn: "2026-02-01", SG: 1.46}}
	require.Len(t, plan.Due(all, fired(t, 3), check, nil), 9)
}
