package site

import (
	"fmt"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/chromedp/cdproto/network"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// trivial is the least page that a browser paints: what ours are held beside.
const trivial = `<!doctype html><html lang="en"><meta charset="utf-8"><title>A page</title><p>A page.</p>`

// shifted adds up all that moved by itself since a page was opened.
const shifted = `(window.shifted = 0, new PerformanceObserver(list => { for (const e of list.getEntries()) if (!e.hadRecentInput) window.shifted += e.value; })
	.observe({ type: 'layout-shift', buffered: true }), setTimeout(() => { window.stood = true; }, 300), 1)`

// paces serves a wall of 144, one of 3,600 tiles, and the trivial page.
func paces(t *testing.T) (base string) {
	small, _ := standingSite(t)
	w := invent(60)
	big := build(t, Input{Wall: w, Pictures: inventPictures(t, w, 40)})
	mux := http.NewServeMux()
	mux.Handle("/144/", http.StripPrefix("/144/", http.FileServer(http.Dir(small))))
	mux.Handle("/3600/", http.StripPrefix("/3600/", http.FileServer(http.Dir(big))))
	mux.HandleFunc("/trivial", func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		_, _ = w.Write([]byte(trivial))
	})
	s := httptest.NewServer(mux)
	t.Cleanup(s.Close)
	info, err := os.Stat(filepath.Join(big, "color.html"))
	require.NoError(t, err)
	t.Logf("color.html of 3,600 tiles: %.0f KB", float64(info.Size())/1000)
	return s.URL
}

// Times are said, not held: first paint of the pages that open most, each round
// beside the trivial page. The order changes by the round, and a page has come
// whole before the next is opened: one that opens while the pictures of another
// are still being decoded pays for them. TWODIP_LONG=1 makes the figures.
func TestFirstPaintBesideATrivialPage(t *testing.T) {
	if os.Getenv("TWODIP_LONG") == "" {
		t.Skip("figures are made with TWODIP_LONG=1")
	}
	base := paces(t)
	const rounds = 15
	pages := []string{"trivial", "144/", "144/tile/7.html", "3600/", "3600/order.html", "3600/color.html", "3600/tile/7.html"}
	took := map[string][]float64{}
	for range rounds {
		b := openTab(t, 1366, 768)
		call(b, network.SetCacheDisabled, network.SetCacheDisabledParams{CacheDisabled: true})
		b.visit(base + "/trivial") // a tab's first page waits for its process
		for _, k := range rand.Perm(len(pages)) {
			page := pages[k]
			b.visit(base + "/" + page)
			b.until(`document.readyState === 'complete' && performance.getEntriesByName('first-contentful-paint').length`)
			took[page] = append(took[page], eval[float64](b, `performance.getEntriesByName('first-contentful-paint')[0].startTime`))
		}
	}
	least := middleOf(took["trivial"])
	for _, page := range pages {
		t.Logf("%s: first paint after %.0f ms (median of %d; %.0f to %.0f), %.2f of the trivial page", page, middleOf(took[page]), rounds, slices.Min(took[page]), slices.Max(took[page]), middleOf(took[page])/least)
	}
}

// Nothing moves by itself once it stands.
func TestNothingMovesByItself(t *testing.T) {
	dir, _ := standingSite(t)
	base := serve(t, dir)
	for _, width := range []int64{390, 1366} {
		b := openTab(t, width, 800)
		worst, at := 0.0, ""
		for _, page := range []string{"", "#words=blue", "#near=48+-8+-14", "tile/7.html", "color.html", "order.html", "compare.html#tiles=7,9,26", "shortlist.html#tiles=7,9,26", "room.html", "kept.html", "glaze/QA.html"} {
			b.visit(base + page)
			eval[any](b, shifted)
			b.until(`window.stood`)
			if moved := eval[float64](b, `window.shifted`); moved >= worst {
				worst, at = moved, page
			}
		}
		t.Logf("%d px wide: at most %.4f moves, on %q", width, worst, at)
		assert.LessOrEqual(t, worst, 0.02, "%d px: %s", width, at)
		b.quiet()
	}
}

// asked are things to search a wall of 3,600 tiles for.
var asked = []string{"blue", "not green", "matte blue", "Invented 20 over Invented 31", "runny", "dark brown", "rust", "load 2", "celadon", "milk"}

// A search and the layout of its answer, beside a loop of ten million square
// roots in the same browser; said, not held.
func TestSearchBesideSquareRoots(t *testing.T) {
	if os.Getenv("TWODIP_LONG") == "" {
		t.Skip("figures are made with TWODIP_LONG=1")
	}
	base := paces(t)
	b := openTab(t, 1366, 768)
	b.visit(base + "/3600/")
	b.until(`document.getElementById('found-title') && twodip.columns().n === 3600`)
	var times, roots []float64
	for k := range 30 {
		times = append(times, eval[float64](b, fmt.Sprintf(`(() => { const words = document.getElementById('words'); words.value = %s;
			const start = performance.now();
			document.getElementById('find').dispatchEvent(new Event('submit', { cancelable: true }));
			document.body.getBoundingClientRect();
			return performance.now() - start; })()`, asJSON(t, asked[k%len(asked)]))))
		roots = append(roots, eval[float64](b, `(() => { let sum = 0; const start = performance.now(); for (let i = 0; i < 1e7; i++) sum += Math.sqrt(i); return sum > 0 ? performance.now() - start : 0; })()`))
	}
	t.Logf("a search with its layout: median %.1f ms, longest %.1f; ten million roots: median %.1f ms; ratio %.2f", middleOf(times), slices.Max(times), middleOf(roots), middleOf(times)/middleOf(roots))
	b.quiet()
}

func middleOf(values []float64) float64 {
	sorted := slices.Sorted(slices.Values(values))
	return sorted[len(sorted)/2]
}
