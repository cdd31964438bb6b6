package bench

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestEveryPageAnswers, without script, on a wall just begun.
func TestEveryPageAnswers(t *testing.T) {
	c := open(t, newWall(t).Dir())
	for _, r := range rooms() {
		p := c.get(r.path)
		require.Equal(t, 200, p.status, r.path)
		require.Equal(t, 1, p.Find("h1").Length(), r.path)
		require.Equal(t, r.path, p.Find("nav a[aria-current]").AttrOr("href", ""))
	}
	require.Equal(t, 404, c.get("/nowhere").status)
}

// TestWithoutAWall every page but the first leads to it.
func TestWithoutAWall(t *testing.T) {
	c := open(t, "")
	for _, r := range rooms() {
		p := c.get(r.path)
		require.Equal(t, "/", p.path, r.path)
		require.Equal(t, 200, p.status)
	}
}
