package door

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// TestTheDoorGoesOnWhileACommandHasTheWall writes a piece down, looks it up,
// loads it, says how it came out, and takes that back, all while a command has
// the wall; forget finds a maker whose row waits.
func TestTheDoorGoesOnWhileACommandHasTheWall(t *testing.T) {
	wall := studio(t)
	_, p := openDoor(t, Wish{Dir: wall})
	_, _ = p.get(t, "/kiln")
	had := len(rowsOf(t, wall))
	before := logText(t, wall)
	letGo, err := wall.Lock()
	require.NoError(t, err)
	for _, key := range []string{"a", "a", "b"} {
		status, text := p.post(t, "/log", "key", key, "first", "QM", "second", "FG", "maker", "=Zq", "piece", "blue, \"small\"")
		require.Equal(t, 200, status, text)
	}
	_, text := p.get(t, "/mine?piece=2")
	assert.Contains(t, text, "waits for the kiln")
	for _, id := range []string{"1", "2"} {
		require.Equal(t, 303, redirected(t, p, "/kiln", "piece", id, "load", "=G\n99", "shelf", "top"))
		require.Equal(t, 303, redirected(t, p, "/kiln", "piece", id, "came", "crawling", "zone", "overlap"))
	}
	require.Equal(t, 303, redirected(t, p, "/kiln/back", "piece", "2"))
	status, _ := p.post(t, "/kiln", "piece", "1", "came", "good")
	assert.Equal(t, 422, status, "it is said already")
	_, text = p.get(t, "/mine?piece=1")
	assert.Contains(t, text, "crawling")
	_, text = p.get(t, "/mine?piece=2")
	assert.Contains(t, text, "in load =G 99")
	assert.Equal(t, before, logText(t, wall), "the log is the command’s")
	r, err := run.LoadRecords(wall)
	require.NoError(t, err)
	assert.Equal(t, had+2, r.Log.Len(), "who reads the log reads what waits")
	came, err := run.NotLookedAt(wall, r, time.Now())
	require.NoError(t, err)
	assert.Len(t, came, 2)

	letGo()
	require.Eventually(t, func() bool { return !record.Waits(wall) }, 10*time.Second, 10*time.Millisecond)
	rows := rowsOf(t, wall)
	require.Len(t, rows, had+2)
	one, two := rows[had], rows[had+1]
	assert.Equal(t, []string{"1", "'=Zq", "crawling", "overlap"}, []string{one["piece"], one["maker"], one["faults"], one["zone"]})
	assert.Equal(t, []string{"2", "'=G 99", "top", ""}, []string{two["piece"], two["load"], two["shelf"], two["result"]})
}

// TestForgetFindsWhatWaits has a row in the way that a crash left unfolded.
func TestForgetFindsWhatWaits(t *testing.T) {
	wall := studio(t)
	d, p := openDoor(t, Wish{Dir: wall})
	letGo, err := wall.Lock()
	require.NoError(t, err)
	status, _ := p.post(t, "/log", "key", "a", "first", "QM", "maker", "Zqx")
	require.Equal(t, 200, status)
	d.Close()
	letGo()
	require.True(t, record.Waits(wall))
	did, err := run.Forget(wall, "zqx")
	require.NoError(t, err)
	assert.Equal(t, []string{"1"}, did.Pieces)
	assert.False(t, record.Waits(wall))
	assert.NotContains(t, logText(t, wall), "Zqx")
	rows := rowsOf(t, wall)
	assert.Equal(t, "QM", rows[len(rows)-1]["first"])
}
