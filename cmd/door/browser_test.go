package door

import (
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/cmd/listen/chromium"
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
	if _, err := exec.LookPath(chromium.Program); err != nil {
		if os.Getenv("TWODIP_ALL") == "1" {
			t.Fatal(chromium.Program + " is missing")
		}
		t.Skip(chromium.Program + " is missing: what a phone shows is not checked here")
	}
	ctx, stop := chromium.Start(t.Context())
	ctx, late := context.WithTimeout(ctx, 3*time.Minute)
	t.Cleanup(func() { late(); stop() })
	s := screen{t, ctx}
	require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(width, height, chromedp.EmulateTouch)))
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
		if v, err := chromedp.Run(s.ctx, chromedp.Evaluate[bool](js, chromedp.EvalAwaitPromise)); err == nil && v {
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

// tap taps the middle of an element, as a finger does.
func (s screen) tap(selector string) {
	s.t.Helper()
	at := ask[[]float64](s, `(() => { const e = document.querySelector(`+quoted(selector)+`); e.scrollIntoView({ block: "center" }); const b = e.getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2]; })()`)
	require.NoError(s.t, chromedp.Do(s.ctx, chromedp.TapXY(at[0], at[1])))
}

// press presses keys one after the other.
func (s screen) press(keys string) {
	s.t.Helper()
	require.NoError(s.t, chromedp.Do(s.ctx, chromedp.KeyEvent(keys)))
}

func quoted(text string) string {
	out, _ := json.Marshal(text)
	return string(out)
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
