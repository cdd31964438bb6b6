package content

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestHeadingsAreAddedAndNothingElseIsTouched puts the headings of a form into
// settings as people write them; every line that was there must be there still.
func TestHeadingsAreAddedAndNothingElseIsTouched(t *testing.T) {
	for name, text := range map[string]string{
		"nothing":        "",
		"no log":         "name: Ours # our name\npaper: a4",
		"log of dates":   "# our log\nlog:   # as typed\n    dates: day first\nname: Ours\n",
		"empty log":      "log:\nname: Ours\n",
		"headings":       "log:\n  headings:\n      \"Who: are you\": maker # a form\n  dates: day first\n",
		"empty headings": "log:\n  headings:\n  dates: day first\n",
		"carriage":       "name: Ours\r\nlog:\r\n  dates: day first\r\n",
	} {
		out, err := WithHeadings([]byte(text), map[string]string{"Your pot’s 1st \"dip\"": "first", "Which: 2?": "second"})
		require.NoError(t, err, name)
		s, err := ParseSettings(out)
		require.NoError(t, err, name)
		assert.Equal(t, "first", s.Log.Headings["Your pot’s 1st \"dip\""], name)
		assert.Equal(t, "second", s.Log.Headings["Which: 2?"], name)
		for _, line := range strings.Split(text, "\n") {
			assert.Contains(t, string(out), line, name)
		}
		again, err := WithHeadings(out, map[string]string{"Which: 2?": "second"})
		require.NoError(t, err, name)
		assert.Equal(t, string(out), string(again), name)
	}
	_, err := WithHeadings([]byte("log: {dates: day first}\n"), map[string]string{"a": "first"})
	assert.ErrorContains(t, err, "by hand")
}
