package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/cmd/listen/chromium"
	"github.com/twodip/twodip/cmd/listen/firefox"
)

// person is somebody at a bench in a browser, who reads what stands on the
// screen, and clicks it by its words.
type person struct {
	t      *testing.T
	in     browser
	pid    int // of the bench
	clicks int
}

// browser is what a person has before them.
type browser interface {
	Visit(url string) error
	Ask(js string) (string, error) // what an expression gives
	Click(x, y float64) error
	Type(text string) error
	Files(field string, files ...string) error
}

// atBench starts twodip bench in a folder and opens the address that it prints.
func atBench(t *testing.T, dir string, open func(*testing.T) browser, args ...string) *person {
	t.Helper()
	p := &person{t: t, in: open(t)}
	c := command(dir, append([]string{"bench", "--listen", "127.0.0.1:0", "--no-open"}, args...)...)
	c.Env = append(c.Environ(), "XDG_CONFIG_HOME="+t.TempDir())
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	p.pid = c.Process.Pid
	t.Cleanup(func() {
		require.NoError(t, c.Process.Signal(syscall.SIGTERM))
		require.NoError(t, c.Wait(), "it ends tidily")
	})
	line := make([]byte, 300)
	n, err := out.Read(line)
	require.NoError(t, err)
	require.NoError(t, p.in.Visit(strings.TrimSpace(string(line[:n]))))
	return p
}

// chromium is a window of it.
type chromiumTab struct{ ctx context.Context }

func inChromium(t *testing.T) browser {
	t.Helper()
	has(t, chromium.Program)
	window, stop := chromium.Start(context.Background())
	ctx, end := context.WithTimeout(window, time.Hour)
	t.Cleanup(func() { end(); stop() })
	require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(1280, 900)))
	return chromiumTab{ctx}
}

func (c chromiumTab) Visit(url string) error { return chromedp.Do(c.ctx, chromedp.Navigate(url)) }
func (c chromiumTab) Click(x, y float64) error {
	return chromedp.Do(c.ctx, chromedp.MouseClickXY(x, y))
}
func (c chromiumTab) Type(text string) error { return chromedp.Do(c.ctx, chromedp.KeyEvent(text)) }
func (c chromiumTab) Files(field string, files ...string) error {
	return chromedp.Do(c.ctx, chromedp.SetUploadFiles(field, files))
}

func (c chromiumTab) Ask(js string) (string, error) {
	return chromedp.Run(c.ctx, chromedp.Evaluate[string]("String("+js+")"))
}

func inFirefox(t *testing.T) browser {
	t.Helper()
	has(t, firefox.Program)
	tab, err := firefox.Open(t.Context(), t.TempDir(), 1280, 900)
	require.NoError(t, err)
	t.Cleanup(tab.Close)
	return tab
}

func has(t *testing.T, program string) {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		if os.Getenv("TWODIP_ALL") == "1" {
			t.Fatal(program + " is missing")
		}
		t.Skip(program + " is missing: the whole job is not done in it here")
	}
}

// ask waits until a script's expression gives something, and returns it.
func (p *person) ask(js string) string {
	p.t.Helper()
	var got string
	var err error
	for end := time.Now().Add(30 * time.Second); time.Now().Before(end); time.Sleep(30 * time.Millisecond) {
		// A page that is just being left has no context to ask in: ask again.
		if got, err = p.in.Ask("((" + js + ") || '')"); err == nil && got != "" {
			return got
		}
	}
	shows, _ := p.in.Ask("location.pathname + '\\n' + document.body.innerText") // for the message only
	require.FailNow(p.t, "this never came: "+js, "%v\n%s", err, shows)
	return ""
}

// sees waits until the page says the words, and is loaded.
func (p *person) sees(words string) {
	p.t.Helper()
	p.ask(fmt.Sprintf(`document.readyState === "complete" && document.body.innerText.replace(/\s+/g, " ").includes(%q)`, words))
}

// point is where something is that can be clicked: by its words, whole or how
// they begin, or by a selector after "css:" where it has none to see.
const point = `((words) => {
  const shown = (e) => { const r = e.getClientRects()[0]; return r && r.width > 2 && r.height > 2 && !e.disabled; };
  const says = (e) => (e.getAttribute("aria-label") || e.innerText || "").replace(/\s+/g, " ").trim();
  const all = words.startsWith("css:") ? [...document.querySelectorAll(words.slice(4))] : [...document.querySelectorAll("a, button, label, summary")].filter(shown);
  const e = words.startsWith("css:") ? all[0] : all.find((e) => says(e) === words) || all.find((e) => says(e).startsWith(words));
  if (!e || document.readyState !== "complete") return "";
  e.scrollIntoView({ block: "center", behavior: "instant" });
  const r = e.getClientRects()[0];
  return JSON.stringify([r.left + r.width / 2, r.top + r.height / 2]);
})(%q)`

// standing is where that is once it stands still: a page may still be scrolling.
func (p *person) standing(words string) (at [2]float64) {
	p.t.Helper()
	for was := ""; ; time.Sleep(50 * time.Millisecond) {
		now := p.ask(fmt.Sprintf(point, words))
		if now == was {
			require.NoError(p.t, json.Unmarshal([]byte(now), &at))
			return at
		}
		was = now
	}
}

func (p *person) clicksOn(words string) {
	p.t.Helper()
	p.clicks++
	var err error
	for range 5 { // a page that shows itself anew in this moment takes no click
		at := p.standing(words)
		if err = p.in.Click(at[0], at[1]); err == nil {
			return
		}
	}
	require.NoError(p.t, err)
}

// types writes over what stands in the field of that label.
func (p *person) types(label, text string) {
	p.t.Helper()
	p.clicksOn(label)
	p.ask(`document.activeElement.matches("input, select, textarea")`)
	p.ask(`document.activeElement.select && document.activeElement.select(), "selected"`) // Ctrl+A
	require.NoError(p.t, p.in.Type(text))
}

// pastes puts cells that were copied from a spreadsheet where the cursor is.
func (p *person) pastes(cells string) {
	p.t.Helper()
	if tab, ok := p.in.(*firefox.Tab); ok { // it lets no script make a clipboard up
		p.ask(fmt.Sprintf(`(() => { const was = document.activeElement, t = document.createElement("textarea"); t.value = %q; document.body.append(t); t.select();
			const copied = document.execCommand("copy"); t.remove(); was.focus(); return copied; })()`, cells))
		require.NoError(p.t, tab.Paste())
		return
	}
	p.ask(fmt.Sprintf(`(() => { const data = new DataTransfer(); data.setData("text/plain", %q);
		document.activeElement.dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true })); return "pasted"; })()`, cells))
}

// chooses picks files in the browser's own window, which is a click more.
func (p *person) chooses(field string, files ...string) {
	p.t.Helper()
	p.ask(fmt.Sprintf("document.querySelector(%q) && document.readyState === 'complete'", field))
	require.NoError(p.t, p.in.Files(field, files...))
	p.clicks += 2
}

// waits until the long work is over and what it did stands on the page.
func (p *person) waits(says string) {
	p.t.Helper()
	p.ask(fmt.Sprintf(`document.readyState === "complete" && document.getElementById("work-stop").hidden && document.getElementById("work-did").innerText.includes(%q)`, says))
}
