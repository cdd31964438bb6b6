package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/twodip/twodip/tiles"
)

// Whatever a name holds: what is set keeps inside its box and loses no letter,
// or it is an error.
func TestFitKeepsEveryLetterInTheBox(t *testing.T) {
	p, err := newPaper(Job{Wall: tiles.Wall{}}, papers["a4"], "Test")
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		s := clean(rapid.StringN(0, 60, -1).Draw(t, "name"))
		w := rapid.Float64Range(5, 120).Draw(t, "w")
		h := rapid.Float64Range(2, 40).Draw(t, "h")
		b, err := p.fit(s, text, w, h, leastLabel)
		if err != nil {
			require.ErrorContains(t, err, "the smallest that reads")
			return
		}
		require.LessOrEqual(t, b.wide, w)
		require.LessOrEqual(t, b.tall(), h)
		require.GreaterOrEqual(t, b.pt, leastLabel)
		require.Equal(t, strings.ReplaceAll(s, " ", ""), strings.ReplaceAll(strings.Join(b.lines, ""), " ", ""))
		for _, line := range b.lines {
			require.LessOrEqual(t, p.width(b.style, line), w)
		}
	})
}

// Printing never panics, whatever letters come.
func TestAnyStringPrints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, err := newPaper(Job{}, papers["a4"], "Test")
		require.NoError(t, err)
		require.NoError(t, p.page())
		p.text(20, 20, text, rapid.String().Draw(t, "raw"))
		p.text(20, 30, head, clean(string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes"))))
		_, err = p.write(&strings.Builder{})
		require.NoError(t, err)
	})
}
