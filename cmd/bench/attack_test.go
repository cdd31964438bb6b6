package bench

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/cmd/listen/chromium"
	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/record"
)

// attacks is what a page of another site tries on a bench that is open in the
// same browser, whose cookie the browser sends to every port of this machine.
// Each gives what it could read, "" = nothing.
const attacks = `(async (at, place) => {
  const got = {};
  const soon = (p) => Promise.race([p, new Promise((ok) => setTimeout(() => ok(""), 2500))]);
  const take = async (name, how) => { try { got[name] = String(await soon(how()) || ""); } catch { got[name] = ""; } };
  const text = async (answer) => (answer.type === "opaque" ? "" : await answer.text());
  const form = "application/x-www-form-urlencoded";
  await take("get", async () => text(await fetch(at + "/plan")));
  await take("get with cookie", async () => text(await fetch(at + "/plan", { credentials: "include" })));
  await take("get, no cors", async () => text(await fetch(at + "/plan", { mode: "no-cors", credentials: "include" })));
  for (const [path, body] of [["/plan/apply", "yes=1"], ["/plan/part", "glazes=1&most-glazes=6&partners=1&most-partners=5"], ["/photographs/read", ""], ["/end", ""], ["/new", "place=" + place]]) {
    await take("post " + path, async () => text(await fetch(at + path, { method: "POST", mode: "no-cors", credentials: "include", headers: { "Content-Type": form }, body })));
    await take("beacon " + path, () => (navigator.sendBeacon(at + path, new Blob([body], { type: form })), ""));
    await take("form " + path, () => new Promise((ok) => {
      const frame = document.createElement("iframe"), f = document.createElement("form");
      frame.name = "f" + path; f.target = frame.name; f.method = "post"; f.action = at + path;
      for (const one of body.split("&").filter(Boolean)) { const i = document.createElement("input"); [i.name, i.value] = one.split("="); f.append(i); }
      document.body.append(frame, f);
      frame.onload = () => { let seen = ""; try { seen = frame.contentDocument.body.textContent; } catch { seen = ""; } ok(seen); };
      f.submit();
    }));
  }
  await take("upload", async () => { const d = new FormData(); d.append("photo", new Blob(["\u00ff\u00d8\u00ff"]), "7.jpg"); return text(await fetch(at + "/photographs/bring", { method: "POST", mode: "no-cors", credentials: "include", body: d })); });
  await take("picture", () => new Promise((ok) => { const i = new Image(); i.onload = () => ok("seen " + i.width); i.onerror = () => ok(""); i.src = at + "/sheets/picture?sheet=labels&page=1"; document.body.append(i); }));
  await take("script", () => new Promise((ok) => { const s = document.createElement("script"); s.onload = () => ok("ran"); s.onerror = () => ok(""); s.src = at + "/look/bench.js"; document.head.append(s); }));
  await take("events", () => new Promise((ok) => { const e = new EventSource(at + "/news", { withCredentials: true }); for (const n of ["work", "changed", "photo", "pulse"]) e.addEventListener(n, (m) => ok(m.data)); e.onerror = () => ok(""); }));
  await take("socket", () => new Promise((ok) => { const w = new WebSocket(at.replace("http", "ws") + "/news"); w.onopen = () => ok("open"); w.onerror = () => ok(""); }));
  await take("frame", () => new Promise((ok) => { const f = document.createElement("iframe"); f.onload = () => { let s = ""; try { s = f.contentDocument.body.textContent; } catch { s = ""; } ok(s); }; f.src = at + "/plan"; document.body.append(f); }));
  return Object.entries(got).filter(([, v]) => v).map(([k, v]) => k + ": " + v.slice(0, 80)).join("\n");
})(%q, %q)`

// A page of another site, in the browser that has the bench open, reads nothing
// of it and changes nothing, whatever a page can send.
func TestAPageOfAnotherSiteReadsAndChangesNothing(t *testing.T) {
	if _, err := exec.LookPath(chromium.Program); err != nil {
		if os.Getenv("TWODIP_ALL") == "1" {
			t.Fatal(chromium.Program + " is missing")
		}
		t.Skip(chromium.Program + " is missing: the bench is not attacked from a browser here")
	}
	dir := glazed(t)
	before := []string{read(t, dir, content.SettingsFile), read(t, dir, content.GlazesCSV)}
	owned := filepath.ToSlash(filepath.Join(t.TempDir(), "owned"))
	c := open(t, dir.Dir())
	port := c.base[strings.LastIndex(c.base, ":")+1:]
	evil := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		fmt.Fprint(w, "<!DOCTYPE html><title>another site</title><body>")
	}))
	defer evil.Close()

	browser, stop := chromium.Start(context.Background(), chromedp.Flag("host-resolver-rules", "MAP evil.example 127.0.0.1"))
	defer stop()
	ctx, end := context.WithTimeout(browser, 3*time.Minute)
	defer end()
	visit := func(at string) {
		t.Helper()
		require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(at)))
	}
	visit(c.address)
	words, err := chromedp.Run(ctx, chromedp.Evaluate[string](`document.body.innerText`))
	require.NoError(t, err)
	require.Contains(t, words, "Our glaze wall", "the bench is open in this browser")

	for _, site := range []string{evil.URL, strings.Replace(evil.URL, "127.0.0.1", "evil.example", 1), strings.Replace(evil.URL, "127.0.0.1", "localhost", 1)} {
		visit(site)
		wait := chromedp.Evaluate[string](fmt.Sprintf("window.read = 'going'; "+attacks+".then((r) => { window.read = 'done ' + r; }); ''", c.base, owned))
		_, err = chromedp.Run(ctx, wait)
		require.NoError(t, err)
		var got string
		for range 600 {
			if got, err = chromedp.Run(ctx, chromedp.Evaluate[string]("window.read")); err == nil && strings.HasPrefix(got, "done") {
				break
			}
			time.Sleep(100 * time.Millisecond)
		}
		require.Equal(t, "done ", got, "what %s could read", site)
	}

	// Another name for this machine (DNS rebinding).
	visit("http://evil.example:" + port + "/plan")
	words, err = chromedp.Run(ctx, chromedp.Evaluate[string](`document.body.innerText`))
	require.NoError(t, err)
	require.Equal(t, "This address is not served here.", strings.TrimSpace(words))

	require.Equal(t, before, []string{read(t, dir, content.SettingsFile), read(t, dir, content.GlazesCSV)})
	require.False(t, dir.Has(record.PlanFile))
	require.False(t, dir.Has("tiles/photos/7.jpg"))
	require.NoDirExists(t, owned)
	require.Equal(t, http.StatusOK, c.get("/plan").status, "it is not closed")
}

// Without a browser: the same requests sent by hand, with the bench's own
// cookie, as a page of another origin would send them.
func TestARequestOfAnotherOriginIsRefused(t *testing.T) {
	dir := glazed(t)
	c := open(t, dir.Dir())
	for name, head := range map[string]map[string]string{
		"same machine, other port": {"Sec-Fetch-Site": "same-site", "Origin": "http://127.0.0.1:1"},
		"another site":             {"Sec-Fetch-Site": "cross-site", "Origin": "https://evil.example"},
		"an old browser":           {"Origin": "https://evil.example"},
		"a page without an origin": {"Sec-Fetch-Site": "cross-site", "Origin": "null"},
	} {
		r, err := http.NewRequest(http.MethodPost, c.base+"/plan/apply", strings.NewReader(url.Values{"yes": {"1"}}.Encode()))
		require.NoError(t, err)
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		for k, v := range head {
			r.Header.Set(k, v)
		}
		require.Equal(t, http.StatusForbidden, c.read(c.http.Do(r)).status, name)
	}
	r, err := http.NewRequest(http.MethodGet, c.base+"/plan", nil)
	require.NoError(t, err)
	r.Host = "evil.example"
	require.Equal(t, http.StatusMisdirectedRequest, c.read(c.http.Do(r)).status)
	require.False(t, dir.Has(record.PlanFile))
}
