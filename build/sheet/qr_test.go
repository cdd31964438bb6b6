package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

// A code is 10 mm at least, with the quiet zone of four modules that ISO/IEC
// 18004 asks for, on every built-in label that is 15 mm tall or more.
func TestCodesAreTenMillimetres(t *testing.T) {
	for _, s := range labelSheets {
		w := smallWall(3)
		w.Address = "https://tiles.example/wall"
		w.Labels.Sheet = s.Name
		s = onRoll(s)
		on, err := labelPaper(s)
		require.NoError(t, err)
		p, err := newPaper(Job{Wall: w}, on, "Test")
		require.NoError(t, err)
		l := newLabeler(p, s)
		side := l.choose(w.Tiles).qr
		c, short, err := codeFor(w.Tiles[8].Number, w.Address, side)
		require.NoError(t, err)
		require.False(t, short, s.Name)
		module := side / float64(c.side+2*quiet)
		require.GreaterOrEqual(t, module, leastModule, s.Name)
		if isWide(l.inside(l.place(0))) {
			require.GreaterOrEqual(t, module, 0.5, "%s: to be read on a photo of the mat", s.Name)
		}
		if s.Height >= 15 {
			require.GreaterOrEqual(t, module*float64(c.side), 10.0, s.Name)
		}
	}
}

// An address too long for a small label leaves the number, and that is said.
func TestALongAddressLeavesTheNumber(t *testing.T) {
	w := smallWall(2)
	w.Address = "https://" + strings.Repeat("very-long.", 12) + "example"
	w.Labels.Sheet = "letter-80"
	var said []string
	_, err := Labels(&strings.Builder{}, Job{Wall: w, Say: func(s string) { said = append(said, s) }})
	require.NoError(t, err)
	require.Equal(t, []string{"4 labels are too small for a QR code of the site's address: the code there says the tile's number alone"}, said)
	n, ok := tiles.NumberFromPayload(w.Tiles[0].Number.Payload(""))
	require.True(t, ok)
	require.Equal(t, w.Tiles[0].Number, n)
}

// Names that need the room get it from the code, which stays above 10 mm.
func TestLongNamesComeBeforeALargeCode(t *testing.T) {
	sideOf := func(name string) float64 {
		w := smallWall(2)
		w.Labels.Sheet = "letter-30"
		w.Glazes[1].Name = name
		s, err := FindLabelSheet(w.Settings)
		require.NoError(t, err)
		p, err := newPaper(Job{Wall: w}, papers[s.Paper], "Test")
		require.NoError(t, err)
		l := newLabeler(p, s)
		return l.choose(w.Tiles).qr
	}
	short, long := sideOf("Heron Fog"), sideOf(strings.Repeat("Heron Fog on ", 14))
	t.Logf("%.1f mm, %.1f mm beside a long name", short, long)
	require.Greater(t, short, long)
	require.Greater(t, long, 10.0)
}
