package site

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/cmd/listen/chromium"
)

// The browser these tests drive is Debian's Chromium, one for all of them,
// a tab a test.

var oneForAll struct {
	once sync.Once
	ctx  context.Context
	stop func()
	err  error
}

func TestMain(m *testing.M) {
	code := m.Run()
	if oneForAll.stop != nil {
		oneForAll.stop()
	}
	os.Exit(code)
}

// needs skips a test where a tool is missing, and fails it in CI.
func needs(t testing.TB, missing bool, what string) {
	t.Helper()
	if !missing {
		return
	}
	if os.Getenv("TWODIP_ALL") == "1" {
		t.Fatal(what + " is missing")
	}
	t.Skip(what + " is missing: what a person sees in a browser is not checked here")
}

// tab is one page of the browser and what happens in it.
type tab struct {
	t   testing.TB
	ctx context.Context

	mu       sync.Mutex
	said     []string // complaints in the console, exceptions, dialogs
	requests []string
	bytes    float64 // of the bodies that came
}

// openTab opens a page of the given size; scale is device pixels a CSS pixel.
func openTab(t testing.TB, width, height int64) *tab {
	t.Helper()
	_, err := exec.LookPath(chromium.Program)
	needs(t, err != nil, chromium.Program)
	oneForAll.once.Do(func() {
		oneForAll.ctx, oneForAll.stop = chromium.Start(context.Background())
		oneForAll.err = chromedp.Do(oneForAll.ctx)
	})
	require.NoError(t, oneForAll.err)
	ctx, cancel := chromedp.NewContext(oneForAll.ctx)
	ctx, stop := context.WithTimeout(ctx, 180*time.Second)
	t.Cleanup(func() { stop(); cancel() })
	b := &tab{t: t, ctx: ctx}
	require.NoError(t, chromedp.Listen(ctx, b.hear))
	call(b, network.Enable, network.EnableParams{})
	call(b, log.Enable, cdp.Empty{})
	b.do(chromedp.EmulateViewport(width, height))
	return b
}

func (b *tab) hear(ev any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch ev := ev.(type) {
	case *runtime.EventExceptionThrown:
		text := ev.ExceptionDetails.Text
		if ev.ExceptionDetails.Exception != nil {
			text += " " + ev.ExceptionDetails.Exception.Description
		}
		b.said = append(b.said, "exception: "+text)
	case *runtime.EventConsoleAPICalled:
		b.said = append(b.said, "console: "+string(ev.Type))
	case *log.EventEntryAdded:
		b.said = append(b.said, string(ev.Entry.Level)+": "+ev.Entry.Text)
	case *page.EventJavascriptDialogOpening:
		b.said = append(b.said, "dialog: "+ev.Message)
	case *network.EventRequestWillBeSent:
		if !strings.HasPrefix(ev.Request.URL, "about:") && !strings.HasPrefix(ev.Request.URL, "data:") && !strings.HasPrefix(ev.Request.URL, "blob:") {
			b.requests = append(b.requests, ev.Request.URL)
		}
	case *network.EventLoadingFinished:
		b.bytes += ev.EncodedDataLength
	}
}

func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	require.NoError(b.t, chromedp.Do(b.ctx, steps...))
}

// visit opens an address and forgets the page before it.
func (b *tab) visit(url string) {
	b.t.Helper()
	b.do(chromedp.Navigate("about:blank"))
	b.mu.Lock()
	b.requests, b.bytes = nil, 0
	b.mu.Unlock()
	b.do(chromedp.Navigate(url))
}

// quiet fails the test when the page has complained of anything: an exception,
// a refused request, a dialog.
func (b *tab) quiet() {
	b.t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	require.Empty(b.t, b.said)
}

// eval gives the value of a script's expression.
func eval[T any](b *tab, js string) T {
	b.t.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](js))
	require.NoError(b.t, err, js)
	return v
}

// until waits for a script's expression to become true.
func (b *tab) until(js string) {
	b.t.Helper()
	var err error
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		var is bool
		// A page that is just being left has no context to ask in: ask again.
		if is, err = chromedp.Run(b.ctx, chromedp.Evaluate[bool]("!!("+js+")")); err == nil && is {
			return
		}
	}
	require.FailNow(b.t, "this never became true: "+js, "%v", err)
}

// press sends keys to whatever has the focus.
func (b *tab) press(keys ...string) {
	b.t.Helper()
	for _, k := range keys {
		b.do(chromedp.KeyEvent(k))
	}
}

// picture keeps a screenshot where TWODIP_LOOK names a folder, for a
// person to look at.
func (b *tab) picture(name string) {
	b.t.Helper()
	dir := os.Getenv("TWODIP_LOOK")
	if dir == "" {
		return
	}
	shot, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
	require.NoError(b.t, err)
	require.NoError(b.t, os.WriteFile(filepath.Join(dir, name+".png"), shot, 0o644))
}

// fileURL is the address of a page opened from disk.
func fileURL(dir, name string) string {
	return "file://" + filepath.ToSlash(filepath.Join(dir, name))
}

// serve puts a site under a folder of a server on this machine.
func serve(t testing.TB, dir string) string {
	mux := http.NewServeMux()
	mux.Handle("/studio/wall/", http.StripPrefix("/studio/wall/", http.FileServer(http.Dir(dir))))
	s := httptest.NewServer(mux)
	t.Cleanup(s.Close)
	return s.URL + "/studio/wall/"
}

// both runs a test on the site opened from disk and on a server's folder.
func both(t *testing.T, dir string, test func(t *testing.T, at func(name string) string)) {
	t.Run("from disk", func(t *testing.T) { test(t, func(name string) string { return fileURL(dir, name) }) })
	if testing.Short() {
		return
	}
	t.Run("from a folder of a server", func(t *testing.T) {
		base := serve(t, dir)
		test(t, func(name string) string { return base + name })
	})
}

// scripts switches the page's scripts on or off.
func (b *tab) scripts(on bool) {
	call(b, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: !on})
}

// call sends one command of the browser's protocol.
func call[P, R any](b *tab, cmd cdp.Command[P, R], params P) R {
	b.t.Helper()
	r, err := chromedp.Call(b.ctx, cmd, params)
	require.NoError(b.t, err)
	return r
}
