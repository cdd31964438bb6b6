package site

import (
	"bytes"
	"compress/gzip"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Sizes and counts are held here and fail; times are only said.

// weighed opens a page from a server, scrolls it to its end and says how many
// requests it took and how many bytes, uncompressed, came.
func weighed(t *testing.T, dir, name string) (requests int, size float64) {
	b := openTab(t, 1440, 1000)
	b.visit(serve(t, dir) + strings.TrimPrefix(name, "index.html")) // Go's server sends index.html on to its folder
	start := time.Now()
	eval[any](b, `(() => { for (const e of document.querySelectorAll('img')) e.loading = 'eager'; return 1 })()`)
	b.until(`[...document.images].every(i => i.complete)`)
	b.mu.Lock()
	defer b.mu.Unlock()
	t.Logf("%s: %d requests, %.0f KB, all pictures there after %d ms", name, len(b.requests), b.bytes/1000, time.Since(start).Milliseconds())
	for i, r := range b.requests {
		assert.NotContains(t, b.requests[:i], r, "asked for twice")
	}
	return len(b.requests), b.bytes
}

func TestBudgetOfAWallOf144(t *testing.T) {
	dir, _ := standingSite(t)
	n, size := weighed(t, dir, "index.html")
	assert.LessOrEqual(t, n, 6)
	assert.LessOrEqual(t, size, 300e3)
	n, size = weighed(t, dir, "tile/7.html")
	assert.LessOrEqual(t, n, 5)
	assert.LessOrEqual(t, size, 150e3)
	// What a page of the wall loads, and what a page does that a script fills.
	for _, script := range []string{"find.js", "show.js"} {
		scripts := squeezed(t, dir, "site.js", script, "look.css") + readers(t, dir)
		t.Logf("scripts and style with %s: %.1f KB compressed", script, scripts/1000)
		assert.LessOrEqual(t, scripts, 24e3)
	}
}

func TestBudgetOfAWallOf3600(t *testing.T) {
	if testing.Short() {
		t.Skip("a wall of 3,600 tiles takes a while")
	}
	w := invent(60)
	dir := filepath.Join(t.TempDir(), "site")
	in := Input{Wall: w, Pictures: inventPictures(t, w, 40), Cache: t.TempDir()}
	start := time.Now()
	_, err := Build(t.Context(), dir, in)
	require.NoError(t, err)
	t.Logf("the site of 3,600 tiles, thumbnail sheets drawn anew: %.1f s; with them kept: see BenchmarkSite", time.Since(start).Seconds())
	n, size := weighed(t, dir, "index.html")
	assert.LessOrEqual(t, n, 30)
	assert.LessOrEqual(t, size, 6e6)
	html := squeezed(t, dir, "index.html")
	t.Logf("its page: %.1f KB compressed", html/1000)
	assert.LessOrEqual(t, html, 30e3)
}

// readers is the compressed size of the scripts that stand before the data.
func readers(t *testing.T, dir string) float64 {
	all, err := os.ReadFile(filepath.Join(dir, columnsFile))
	require.NoError(t, err)
	code, _, found := bytes.Cut(all, []byte("twodip.data="))
	require.True(t, found)
	alone := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(alone, "code.js"), code, 0o644))
	return squeezed(t, alone, "code.js")
}

// squeezed is the size of files as a server sends them.
func squeezed(t *testing.T, dir string, names ...string) float64 {
	total := 0
	for _, name := range names {
		data, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		var b bytes.Buffer
		z, _ := gzip.NewWriterLevel(&b, gzip.BestCompression)
		_, err = z.Write(data)
		require.NoError(t, err)
		require.NoError(t, z.Close())
		total += b.Len()
	}
	return float64(total)
}

// BenchmarkSite builds a site whose pictures are kept: every page and all data
// anew, and once more when nothing, or one glaze's finish, has changed.
func BenchmarkSite(b *testing.B) {
	for _, n := range []int{12, 24, 60} {
		w := invent(n)
		in := Input{Wall: w, Pictures: inventPictures(b, w, 20), Cache: b.TempDir(), Version: "bench"}
		dir := filepath.Join(b.TempDir(), "site")
		if _, err := Build(b.Context(), dir, in); err != nil { // pictures are made once and kept
			b.Fatal(err)
		}
		for what, change := range map[string]func(i int){
			"anew":      func(int) { require.NoError(b, os.RemoveAll(dir)) },
			"unchanged": func(int) {},
			"finish":    func(i int) { in.Wall.Glazes[0].Finish = []string{"gloss", "matte"}[i%2] },
		} {
			b.Run(strings.Join([]string{"tiles", tilesOf(n), what}, "-"), func(b *testing.B) {
				for i := 0; b.Loop(); i++ {
					change(i)
					if _, err := Build(b.Context(), dir, in); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

func tilesOf(glazes int) string { return some(glazes * glazes) }
