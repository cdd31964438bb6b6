package bench

import (
	"context"
	"encoding/json"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/cmd/listen/chromium"
	"github.com/twodip/twodip/cmd/listen/firefox"
	"github.com/twodip/twodip/tiles/record"
)

// phoneBrowser is a phone's browser, whichever it is.
type phoneBrowser interface {
	Visit(url string) error
	Ask(js string) (string, error)
	Click(x, y float64) error
	Type(text string) error
}

// chromiumPhone is Chromium as one.
type chromiumPhone struct{ ctx context.Context }

func (c chromiumPhone) Visit(url string) error { return chromedp.Do(c.ctx, chromedp.Navigate(url)) }
func (c chromiumPhone) Ask(js string) (string, error) {
	return chromedp.Run(c.ctx, chromedp.Evaluate[string]("(async () => String(await ("+js+")))()", chromedp.EvalAwaitPromise))
}
func (c chromiumPhone) Click(x, y float64) error {
	return chromedp.Do(c.ctx, chromedp.MouseClickXY(x, y))
}
func (c chromiumPhone) Type(text string) error { return chromedp.Do(c.ctx, chromedp.KeyEvent(text)) }

// cut takes the network from it, or gives it back.
func (c chromiumPhone) cut(t *testing.T, off bool) {
	t.Helper()
	_, err := chromedp.Call(c.ctx, network.Enable, network.EnableParams{})
	require.NoError(t, err)
	_, err = chromedp.Call(c.ctx, network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{
		MatchedNetworkConditions: []*network.Conditions{{Offline: off, DownloadThroughput: -1, UploadThroughput: -1}}})
	require.NoError(t, err)
}

func programs(t *testing.T, names ...string) {
	t.Helper()
	for _, name := range names {
		if _, err := exec.LookPath(name); err != nil {
			if os.Getenv("TWODIP_ALL") == "1" {
				t.Fatal(name + " is missing")
			}
			t.Skip(name + " is missing")
		}
	}
}

// student is somebody with a phone in hand.
type student struct {
	t    *testing.T
	in   phoneBrowser
	base string
}

// sees waits until an expression says something, and returns it.
func (s student) sees(js string) string {
	s.t.Helper()
	var got string
	var err error
	for range 600 {
		if got, err = s.in.Ask("(" + js + ") || ''"); err == nil && got != "" {
			return got
		}
		time.Sleep(50 * time.Millisecond)
	}
	shows, _ := s.in.Ask("document.body.innerText")
	require.Fail(s.t, "it never came", "%s (%v)\n%s", js, err, shows)
	return ""
}

func (s student) taps(selector string) {
	s.t.Helper()
	var at [2]float64
	said := s.sees(fmt.Sprintf(`(() => { const e = document.querySelector(%q); if (!e || document.readyState !== "complete") return ""; e.scrollIntoView({ block: "center" }); const r = e.getBoundingClientRect(); return JSON.stringify([r.x + r.width / 2, r.y + r.height / 2]); })()`, selector))
	require.NoError(s.t, json.Unmarshal([]byte(said), &at))
	require.NoError(s.t, s.in.Click(at[0], at[1]))
}

// glazes fills the form for a pair in, and sends it.
func (s student) glazes(first, second, maker string) {
	s.t.Helper()
	require.NoError(s.t, s.in.Visit(s.base+"/piece?first="+first+"&second="+second))
	s.taps("#maker")
	require.NoError(s.t, s.in.Type(maker))
	s.taps("#foot")
	s.taps("#piece button")
}

// TestTwoPhonesAndTheTeacherAtOnce is Chromium and Firefox as two phones, and the
// teacher at the bench. Chromium's network is cut in the middle: what it wrote
// meanwhile comes later, once; nobody's rows stand in anybody's way.
func TestTwoPhonesAndTheTeacherAtOnce(t *testing.T) {
	programs(t, chromium.Program, firefox.Program)
	wall := studio(t)
	teacher := open(t, wall.Dir())
	address := teacher.post("/door/open", "at", "127.0.0.1:0").Find("main code").First().Text()
	base, _, _ := strings.Cut(address, "/?")
	had := strings.Count(fileOf(t, wall, record.LogFile), "\n")

	window, stop := chromium.Start(context.Background())
	ctx, late := context.WithTimeout(window, 3*time.Minute)
	t.Cleanup(func() { late(); stop() })
	require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(390, 844)))
	one := student{t, chromiumPhone{ctx}, base}
	tab, err := firefox.Open(t.Context(), t.TempDir(), 390, 844)
	require.NoError(t, err)
	t.Cleanup(tab.Close)
	other := student{t, tab, base}
	for _, s := range []student{one, other} {
		require.NoError(t, s.in.Visit(address))
	}

	one.glazes("QM", "FG", "Zq")
	one.sees(`document.querySelector("h1 .number")?.innerText === "1"`)
	other.glazes("OH", "QM", "Yw")
	other.sees(`document.querySelector("h1 .number")?.innerText === "2"`)

	// One is cut off with its form open; the other and the teacher go on.
	require.NoError(t, one.in.Visit(base+"/piece?first=LR&second=QM"))
	one.taps("#foot")
	one.in.(chromiumPhone).cut(t, true)
	one.taps("#piece button")
	one.sees(`document.getElementById("kept").innerText.includes("kept on this phone")`)
	other.glazes("FG", "", "Yw")
	other.sees(`document.querySelector("h1 .number")?.innerText === "3"`)
	page := teacher.get("/door")
	require.Equal(t, 3, page.Find("#came ~ div tbody tr").Length())
	assert.Contains(t, teacher.post("/door/accept", "keys", page.value("keys")).text, "3 rows marked")

	// Back on the network the piece comes, once, while the teacher's measure has the wall.
	letGo, err := wall.Lock()
	require.NoError(t, err)
	one.in.(chromiumPhone).cut(t, false)
	one.sees(`(dispatchEvent(new Event("online")), document.getElementById("kept").innerText.includes("is piece 4"))`)
	other.glazes("QM", "", "Yw")
	other.sees(`document.querySelector("h1 .number")?.innerText === "5"`)
	assert.Equal(t, 2, teacher.get("/door").Find("#came ~ div tbody tr").Length(), "what waits is seen")
	letGo()
	require.Eventually(t, func() bool { return !record.Waits(wall) }, 10*time.Second, 20*time.Millisecond)
	text := fileOf(t, wall, record.LogFile)
	assert.Equal(t, had+5, strings.Count(text, "\n"))
	assert.Equal(t, 3, strings.Count(text, ","+record.Looked+","))
	assert.Equal(t, 2, strings.Count(text, ","+record.NotLooked+","))

	// Each phone lists its own, and neither sees who made the other's.
	require.NoError(t, one.in.Visit(base+"/mine"))
	require.NoError(t, other.in.Visit(base+"/mine?"+url.Values{"piece": {"1"}}.Encode()))
	assert.Contains(t, one.sees(`document.getElementById("own").innerText`), "4 1st Lamp Rust → 2nd Quarry Milk")
	assert.NotContains(t, other.sees(`document.getElementById("own").innerText`), "Lamp Rust")
	says := other.sees(`document.body.innerText`)
	assert.Contains(t, says, "1st Quarry Milk → 2nd Fen Glass")
	assert.NotContains(t, says, "Zq")
}
