package site

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
)

// hostileNames are names that try to be something else.
var hostileNames = []string{
	`<script>owned()</script>`,
	`"><img src=x onerror=owned()>`,
	`'-owned()-'`,
	`</title></bdi></script><script>owned()</script>`,
	`\u003cscript\u003eowned()`,
	"מי הגיר\u202eelif", // right to left, and an override
	"釉薬 🏺 Ünïcödé",
	strings.Repeat("Long", 50),
	`{{.Root}} {{template "main"}}`,
	`=cmd|' /C calc'!A0`,
	"tab\there `${owned()}`",
	`javascript:owned()`,
}

// hostileWall is a wall whose every word is hostile.
func hostileWall(t *testing.T) Input {
	w := invent(len(hostileNames))
	w.Name = hostileNames[3]
	for i := range w.Glazes {
		g := &w.Glazes[i]
		g.Name, g.Notes, g.Finish, g.Color = hostileNames[i], hostileNames[i], hostileNames[i], hostileNames[i]
		g.Cautions = []string{hostileNames[i]}
	}
	for i := range w.Tiles {
		w.Tiles[i].Reason, w.Tiles[i].Shelf, w.Tiles[i].Batches = hostileNames[i%len(hostileNames)], hostileNames[1], []tiles.BatchName{{Name: hostileNames[0]}}
	}
	for i := range w.Readings {
		r := &w.Readings[i]
		r.Profile, r.Correction, r.Warning = hostileNames[i%len(hostileNames)], hostileNames[0], hostileNames[1]
		r.Class = tiles.Class(hostileNames[i%3])
	}
	hostile := func(tiles.Pair) string { return hostileNames[1] }
	return Input{
		Wall: w, Pictures: inventPictures(t, w, 4), Caution: hostile, Skipped: hostile,
		Due:  func(n tiles.Number) string { return hostileNames[int(n)%len(hostileNames)] },
		Seen: func(tiles.Pair) (faults, says []string) { return hostileNames, hostileNames },
		Pages: []content.Page{{File: "content/x.md", Slug: "x", Title: hostileNames[0], Body: []byte(
			"# " + hostileNames[1] + "\n\n[a](javascript:owned()) <img src=x onerror=owned()> ![b](\"onerror=owned()) [c](data:text/html,<script>owned()</script>)\n\n" + strings.Join(hostileNames, "\n\n"))}},
	}
}

func TestHostileNamesAreOnlyNames(t *testing.T) {
	dir := build(t, hostileWall(t))
	b := openTab(t, 1280, 900)
	for _, name := range []string{
		"index.html", "index.html#words=script", "index.html#words=%3Cscript%3Eowned()%3C/script%3E&near=%22%3E%3Cimg%20src%3Dx%20onerror%3Downed()%3E", "tile/2.html", "tile/41.html",
		"color.html", "order.html", "compare.html#tiles=2,13", "room.html#show=1", "kept.html", "page/x.html", "glaze/" + invent(1).Glazes[0].Code + ".html",
	} {
		b.visit(fileURL(dir, name))
		b.until(`document.readyState === 'complete'`)
		assert.Equal(t, "undefined", eval[string](b, `typeof owned`))
		assert.Zero(t, eval[int](b, `document.querySelectorAll('[onerror], img[src="x"], script:not([src]), a[href^="javascript"], a[href^="data:"]').length`), name)
	}
	b.visit(fileURL(dir, "tile/2.html"))
	title := eval[string](b, `document.title`)
	assert.Contains(t, title, hostileNames[0], "the name is shown as it is written")
	b.quiet() // no refused script either: nothing of theirs was even tried
}

func TestNoCellOfTheDataStartsAFormula(t *testing.T) {
	dir := build(t, hostileWall(t))
	csv, err := os.ReadFile(filepath.Join(dir, "data", "tiles.csv"))
	require.NoError(t, err)
	assert.Contains(t, string(csv), `'=cmd|`)
	assert.NotContains(t, string(csv), `,=cmd|`)
	script, err := os.ReadFile(filepath.Join(dir, "data", "columns.js"))
	require.NoError(t, err)
	_, data, found := strings.Cut(string(script), "\ntwodip.data=")
	require.True(t, found)
	assert.NotContains(t, data, "<", "no tag can begin in the data")
	assert.Equal(t, 1, strings.Count(data, "\n"), "one line, one string")
}

func TestACodeThatIsAPathIsRefused(t *testing.T) {
	for _, code := range []string{"../x", `..\x`, "a/b", "a?b", "a#b", ".", "a%2e"} {
		in := inventedInput(t, 2)
		in.Wall.Glazes[0].Code = code
		_, err := Build(t.Context(), filepath.Join(t.TempDir(), "site"), in)
		assert.ErrorContains(t, err, "cannot be the name of a page", code)
	}
}
