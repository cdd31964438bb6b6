package door

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAWrongTapIsTakenBackByThePhoneThatMadeIt lets another phone try first, and
// takes back only what the tap itself wrote.
func TestAWrongTapIsTakenBackByThePhoneThatMadeIt(t *testing.T) {
	wall := studio(t)
	_, one := openDoor(t, Wish{Dir: wall})
	another := newPhone(t, one.base+"/?key="+keyOf(one))
	for _, p := range []phone{one, another} {
		_, _ = p.get(t, "/kiln")
	}
	for _, key := range []string{"a", "b"} {
		status, _ := one.post(t, "/log", "key", key, "first", "QM")
		require.Equal(t, 200, status)
	}
	before := logText(t, wall)
	last := func() map[string]string { rows := rowsOf(t, wall); return rows[len(rows)-2] }

	require.Equal(t, 303, redirected(t, one, "/kiln", "piece", "1", "load", "=1+1", "shelf", "top"))
	_, text := one.get(t, "/kiln?load=%3D1%2B1")
	assert.Contains(t, text, "take it back: piece 1, into load =1&#43;1")
	_, text = another.get(t, "/kiln?load=%3D1%2B1")
	assert.NotContains(t, text, "take it back")
	status, text := another.post(t, "/kiln/back", "piece", "1")
	assert.Equal(t, 422, status)
	assert.Contains(t, text, "Ask the teacher")
	assert.Equal(t, "top", last()["shelf"])

	// Another phone says how it came out: the load cannot go from under it.
	require.Equal(t, 303, redirected(t, another, "/kiln", "piece", "1", "came", "crawling", "zone", "overlap"))
	status, text = one.post(t, "/kiln/back", "piece", "1")
	assert.Equal(t, 422, status)
	assert.Contains(t, text, "take back first how it came out")
	require.Equal(t, 303, redirected(t, another, "/kiln/back", "piece", "1"))
	assert.Equal(t, []string{"", "", "", "top"}, []string{last()["result"], last()["faults"], last()["zone"], last()["shelf"]})
	require.Equal(t, 303, redirected(t, one, "/kiln/back", "piece", "1"))
	assert.Equal(t, before, logText(t, wall), "as if nothing had been tapped")
	status, _ = one.post(t, "/kiln/back", "piece", "1")
	assert.Equal(t, 422, status, "once is enough")

	// What stood there before is not the phone's to take back: P001 has come out long ago.
	before = logText(t, wall)
	_, _ = one.post(t, "/kiln", "piece", "P001", "came", "good")
	status, _ = one.post(t, "/kiln/back", "piece", "P001")
	assert.Equal(t, 422, status)
	assert.Equal(t, before, logText(t, wall))

	// Nor is what somebody else has changed since.
	require.Equal(t, 303, redirected(t, one, "/kiln", "piece", "2", "load", "G99", "shelf", "top"))
	changed := []byte(replaceLast(logText(t, wall), "G99", "G98"))
	require.NoError(t, wall.WriteBytes("tiles/log.csv", changed))
	status, text = one.post(t, "/kiln/back", "piece", "2")
	assert.Equal(t, 422, status)
	assert.Contains(t, text, "says something else by now")
	assert.Equal(t, string(changed), logText(t, wall))
}

func replaceLast(text, old, now string) string {
	at := strings.LastIndex(text, old)
	return text[:at] + now + text[at+len(old):]
}
