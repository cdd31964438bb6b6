package tiles

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestNumberFromPhoto(t *testing.T) {
	for name, want := range map[string]Number{
		"7.jpg":                 7,
		"007 back.heic":         7,
		"T7-b.png":              7,
		"t12.JPG":               12,
		"144_2.jpeg":            144,
		"tiles/photos/31.jpg":   31,
		`C:\wall\photos\31.jpg`: 31,
		"12 (1).jpg":            12,
	} {
		n, ok := NumberFromPhoto(name)
		assert.True(t, ok, name)
		assert.Equal(t, want, n, name)
	}
	for _, name := range []string{"IMG_0007.jpg", "board.jpg", "0.jpg", "", ".jpg", "TT7.jpg", "7a.jpg", "999999.jpg", "../x.jpg", "-7.jpg"} {
		_, ok := NumberFromPhoto(name)
		assert.False(t, ok, name)
	}
}

func TestPayloadComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := Number(rapid.IntRange(1, int(MaxNumber)).Draw(t, "number"))
		address := rapid.SampledFrom([]string{"", "https://glazes.example.org", "https://glazes.example.org/", "http://example.org/wall/2026/"}).Draw(t, "address")
		got, ok := NumberFromPayload(n.Payload(address))
		require.True(t, ok)
		require.Equal(t, n, got)
	})
}

func TestPayloadOfOthersIsNoTile(t *testing.T) {
	for _, s := range []string{"", "7", "TILE", "TILE 0", "TILE 7; DROP", "https://example.org/tile/7", "https://example.org/glaze/7.html", "tile/7.html", "WIFI:S:studio;;"} {
		_, ok := NumberFromPayload(s)
		assert.False(t, ok, s)
	}
}
