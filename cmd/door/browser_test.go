package door

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/tiles/record"
)

// screen is a phone's browser that runs scripts.
type screen struct {
	t   *testing.T
	ctx context.Context
}

// newScreen opens a browser of its own: another phone, with a memory of its own.
func newScreen(t *testing.T, width, height int64) screen {
	t.Helper()
	if _, err := exec.LookPath("chromium"); err != nil {
		if os.Getenv("TWODIP_ALL") == "1" {
			t.Fatal("chromium is missing")
		}
		t.Skip("chromium is missing: what a phone shows is not checked here")
	}
	alloc, stop := chromedp.NewExecAllocator(t.Context(), chromedp.ExecPath("chromium"), chromedp.Headless, chromedp.DisableGPU, chromedp.NoFirstRun)
	ctx, end := chromedp.NewContext(alloc)
	ctx, late := context.WithTimeout(ctx, 3*time.Minute)
	t.Cleanup(func() { late(); end(); stop() })
	s := screen{t, ctx}
	require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(width, height)))
	return s
}

func (s screen) visit(url string) {
	s.t.Helper()
	require.NoError(s.t, chromedp.Do(s.ctx, chromedp.Navigate(url)))
}

func ask[T any](s screen, js string) T {
	s.t.Helper()
	v, err := chromedp.Run(s.ctx, chromedp.Evaluate[T](js, chromedp.EvalAwaitPromise))
	require.NoError(s.t, err, js)
	return v
}

// until waits for a page to say something; a page that is being left answers nothing.
func (s screen) until(js string) {
	s.t.Helper()
	for range 300 {
		if v, err := chromedp.Run(s.ctx, chromedp.Evaluate[bool](js)); err == nil && v {
			return
		}
		time.Sleep(100 * time.Millisecond)
	}
	require.Fail(s.t, "it did not come to this", "%s; the page says: %s", js, ask[string](s, `document.body.innerText`))
}

// TestAPieceWaitsForTheNetworkOnThePhone cuts the network between the form and
// the studio's computer: the row is kept, and sent once when there is one again.
func TestAPieceWaitsForTheNetworkOnThePhone(t *testing.T) {
	wall := studio(t)
	s := newScreen(t, 390, 844)
	d, p := openDoor(t, Wish{Dir: wall})
	at := strings.TrimPrefix(p.base, "http://")
	s.visit(d.Address())
	s.visit(p.base + "/piece?first=QM&second=FG")
	ask[any](s, `(document.getElementById("maker").value = "Zq", document.getElementById("foot").click(), 1)`)
	d.Close()
	ask[any](s, `(document.querySelector("#piece button").click(), 1)`)
	s.until(`document.getElementById("kept").innerText.includes("kept on this phone")`)
	assert.False(t, strings.Contains(logText(t, wall), "Zq"))

	again, err := Open(t.Context(), Wish{Dir: wall, Listen: at, Key: d.wish.Key})
	require.NoError(t, err)
	t.Cleanup(again.Close)
	ask[any](s, `(dispatchEvent(new Event("online")), 1)`)
	s.until(`document.getElementById("kept").innerText.includes("is piece 1")`)
	assert.Equal(t, 1, strings.Count(logText(t, wall), ",Zq,"))

	s.visit(p.base + "/mine")
	assert.Contains(t, ask[string](s, `document.getElementById("own").innerText`), "1 1st Quarry Milk → 2nd Fen Glass")

	// With the network there, the same form leads to the piece's number.
	s.visit(p.base + "/piece?first=OH")
	assert.Equal(t, "Zq", ask[string](s, `document.getElementById("maker").value`), "the phone remembers its own")
	ask[any](s, `(document.querySelector("#piece button").click(), 1)`)
	s.until(`document.querySelector("h1 .number")?.innerText === "2"`)
	assert.Equal(t, 2, strings.Count(logText(t, wall), record.NotLooked))

	other := newScreen(t, 390, 844)
	other.visit(again.Address())
	other.visit(p.base + "/mine")
	assert.True(t, ask[bool](other, `document.getElementById("own").hidden`), "another phone lists its own")
}

// TestTheDoorsPagesFitAndAreAccessible holds every page against axe-core, at 320
// pixels and at twice the size of letters; with TWODIP_LOOK it keeps pictures.
func TestTheDoorsPagesFitAndAreAccessible(t *testing.T) {
	wall := studio(t)
	_, err := produce.Site(t.Context(), wall, produce.SiteWish{})
	require.NoError(t, err)
	s := newScreen(t, 320, 640)
	d, p := openDoor(t, Wish{Dir: wall})
	_, _ = p.post(t, "/log", "key", "a", "first", "SF", "second", "HG", "maker", "Zq")
	_, _ = p.post(t, "/kiln", "piece", "1", "load", "G99", "shelf", "top")
	axe, err := os.ReadFile(filepath.Join(os.Getenv("TWODIP_NODE_MODULES"), "axe-core", "axe.min.js"))
	if err != nil {
		t.Log("axe-core is missing: only the width is checked here")
	}
	s.visit(d.Address())
	for i, path := range []string{"/piece", "/piece?first=SF&second=HG", "/mine?piece=1", "/kiln", "/kiln?load=G99", "/kiln?load=G99&fault=1", "/tile/3.html", "/nothing.html"} {
		s.visit(p.base + path)
		for _, size := range []string{"100%", "200%"} {
			ask[any](s, `(document.documentElement.style.fontSize = "`+size+`", 1)`)
			if !strings.HasPrefix(path, "/tile") {
				assert.LessOrEqual(t, ask[int](s, `document.documentElement.scrollWidth`), 320, "%s at %s", path, size)
			}
		}
		ask[any](s, `(document.documentElement.style.fontSize = "", 1)`)
		keepPicture(s, fmt.Sprintf("door-%d.png", i))
		if axe == nil {
			continue
		}
		ask[any](s, string(axe)+"; 1")
		var wrong []struct{ ID, Help string }
		require.NoError(t, json.Unmarshal([]byte(ask[string](s, `axe.run(document, { resultTypes: ['violations'] }).then(r => JSON.stringify(r.violations))`)), &wrong))
		assert.Empty(t, wrong, path)
	}
}

func keepPicture(s screen, name string) {
	dir := os.Getenv("TWODIP_LOOK")
	if dir == "" {
		return
	}
	picture, err := chromedp.Run(s.ctx, chromedp.FullScreenshot(90))
	require.NoError(s.t, err)
	require.NoError(s.t, os.WriteFile(filepath.Join(dir, name), picture, 0o644))
}
