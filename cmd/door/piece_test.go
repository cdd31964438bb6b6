package door

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// TestAPieceGoesIntoTheLogOnce sends rows twice, and wrong ones; what was in the
// log stays byte for byte.
func TestAPieceGoesIntoTheLogOnce(t *testing.T) {
	wall := studio(t)
	_, p := openDoor(t, Wish{Dir: wall})
	_, before, _ := strings.Cut(logText(t, wall), "\n")
	long := strings.Repeat("ab ", 83) + "z"
	require.Len(t, long, 250)
	for i, maker := range []string{"=HYPERLINK(\"http://x\")", "نور الهدى", long, "A,\"B\"\u202e", "<script>alert(1)</script>"} {
		sent := []string{"key", fmt.Sprintf("k-%d", i), "first", "qm", "second", "Fen Glass", "maker", maker, "piece", "a small bowl", "how", "poured", "where", "rim", "clay", "buff stoneware", "foot", "wiped"}
		for range 2 {
			status, text := p.post(t, "/log", sent...)
			assert.Equal(t, 200, status, text)
			assert.Contains(t, text, fmt.Sprintf(`<span class="number">%d</span>`, i+1))
			assert.NotContains(t, text, "<script>alert")
		}
	}
	_, after, _ := strings.Cut(logText(t, wall), "\n")
	added, ok := strings.CutPrefix(after, before)
	require.True(t, ok)
	assert.Equal(t, 5, strings.Count(added, "\n"))
	rows := rowsOf(t, wall)
	last := rows[len(rows)-5:]
	assert.Equal(t, "'=HYPERLINK(\"http://x\")", last[0]["maker"], "no spreadsheet runs it")
	assert.Equal(t, "نور الهدى", last[1]["maker"])
	assert.Equal(t, long, last[2]["maker"])
	for _, row := range last {
		assert.Equal(t, "QM", row["first"])
		assert.Equal(t, "FG", row["second"])
		assert.Equal(t, record.NotLooked, row[record.LookedColumn])
	}

	is := logText(t, wall)
	for want, sent := range map[string][]string{
		"third coat":     {"key", "w1", "first", "QM", "second", "FG; OH"},
		"A third":        {"key", "w1", "first", "QM", "second", "FG", "third", "OH"},
		"No glaze here":  {"key", "w1", "first", "XX"},
		"went on first":  {"key", "w1", "second", "FG"},
		"without its":    {"first", "QM"},
		"longer than":    {"key", "w1", "first", "QM", "maker", strings.Repeat("x", 251)},
		"are no letters": {"key", "w1", "first", "QM", "maker", "a\x00b"},
	} {
		status, text := p.post(t, "/log", sent...)
		assert.Equal(t, 422, status, want)
		assert.Contains(t, text, want)
	}
	answer, err := p.http.Post(p.base+"/log", "application/x-www-form-urlencoded", strings.NewReader("key=w1&first=QM&second=FG;OH"))
	require.NoError(t, err)
	status, _ := readAll(t, answer)
	assert.Equal(t, 422, status, "half a form is no form")
	assert.Equal(t, is, logText(t, wall))
	_, err = run.LoadRecords(wall)
	assert.NoError(t, err)
}
