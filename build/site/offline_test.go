package site

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A site that was visited once stays when the network goes, and shows nothing
// stale while it is there. A browser registers such a script over https and on
// this machine; the page itself does so over https alone.
func TestTheSiteStaysWhenTheNetworkGoes(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	_, err := Build(t.Context(), dir, inventedInput(t, 4))
	require.NoError(t, err)
	var gone atomic.Bool
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if gone.Load() {
			panic(http.ErrAbortHandler)
		}
		http.FileServer(http.Dir(dir)).ServeHTTP(w, r)
	}))
	defer s.Close()
	b := openTab(t, 1000, 800)
	b.visit(s.URL + "/index.html")
	assert.Equal(t, 0, eval[int](b, `window.regs = -1, navigator.serviceWorker.getRegistrations().then(r => window.regs = r.length), 0`))
	b.until(`window.regs === 0`)
	eval[any](b, `(navigator.serviceWorker.register('offline.js').then(r => navigator.serviceWorker.ready).then(() => window.stays = true), 1)`)
	b.until(`window.stays && navigator.serviceWorker.controller`)

	page := filepath.Join(dir, "tile", "1.html")
	text, err := os.ReadFile(page)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(page, append(text, "<p id=\"fresh\">new</p>"...), 0o644))
	b.visit(s.URL + "/tile/1.html")
	assert.True(t, eval[bool](b, `!!document.getElementById('fresh')`), "online it is what the server has")

	gone.Store(true)
	b.visit(s.URL + "/index.html#words=milk")
	b.until(`document.getElementById('found-count').textContent.endsWith('of 16 tiles')`)
	b.visit(s.URL + "/tile/2.html")
	assert.Contains(t, eval[string](b, `document.title`), "Tile 2", "a page that was never opened")
	eval[any](b, `(navigator.serviceWorker.getRegistrations().then(all => all.forEach(r => r.unregister())), 1)`)
}
