package bench

import (
	"context"
	"fmt"
	"image/color"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/cmd/listen/chromium"
	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// states are pages as they come to be while somebody works: how to come there
// by script, which sends a form of the page as the person would, and what then
// stands on the page.
var states = []struct {
	name, at string
	does     string // on the page, "" = nothing
	says     string
}{
	{"refused-new", "/", `document.getElementById("place").value = "here"; send("/new")`, "type the whole path"},
	{"refused-mix", "/records?part=mixes", `set("glaze", "W"); set("batch", "1"); set("mixed", ""); set("sg", "9"); send("/records/mix")`, "Nothing was written"},
	{"refused-sheets", "/sheets", `for (const i of document.querySelectorAll("input[name=sheet]")) i.checked = false; send("/sheets/print")`, "none is ticked"},
	{"refused-list", "/glazes", `set("code.0", "TOOLONG"); send("/glazes/save")`, "marked below"},
	{"asked", "/glazes", `set("code.0", "PW"); send("/glazes/save")`, "Plain White had the code W"},
	{"gone", "/glazes", `document.querySelector("input[name='gone.0']").checked = true; send("/glazes/save")`, "Not yet."},
	{"pasted", "/glazes", `document.getElementById("pasted").value = "code\tname\nZZ\tSedge\n"; send("/glazes/paste")`, "1 row was added"},
	{"stale", "/glazes", `set("seen", "0000"); set("name.0", "Plain and White"); send("/glazes/save")`, "as it is now"},
	{"stale-photo", "/photographs?photo=7.jpg", `set("seen", "0000"); set("tile", "3"); send("/photographs/set")`, "as it is now"},
	{"photo", "/photographs?photo=7.jpg", "", "The four corners"},
	{"photo-wrong", "/photographs?photo=8.jpg", "", "8.jpg"},
	{"photos", "/photographs", "", "2 here"},
	{"mixes", "/records?part=mixes", "", "Write down a mix"},
	{"firings", "/records?part=firings", "", "Write down a firing"},
	{"log", "/records?part=log", "", "Write down a piece"},
	{"unload", "/records?part=unload&load=1", "", "Tap a tile"},
	{"pair", "/plan?pair=W,C", "", "Is this pair made?"},
	{"pieces", "/pieces", "", "By week"},
	{"door-rows", "/door", "", "came from phones"},
	{"nowhere", "/nowhere", "", "there is no such page"},
}

// byForm sends the form that posts there, as its button does.
const byForm = `
const set = (name, to) => { for (const e of document.getElementsByName(name)) e.value = to; };
const send = (to) => {
  const b = document.querySelector('button[formaction="' + to + '"]'), f = b ? b.form : document.querySelector('form[action="' + to + '"]');
  f.noValidate = true;
  if (b) f.action = to;
  HTMLFormElement.prototype.submit.call(f);
};`

// quickly are the states that are looked at without TWODIP_LONG.
var quickly = []string{"refused-mix", "asked", "photo", "pieces"}

// TestEveryStateIsAccessible holds what stands on the screen after something
// was refused, asked or read against axe-core, and to fitting its width. With
// TWODIP_LONG=1 it is every state, at three widths and with letters of twice the
// size.
func TestEveryStateIsAccessible(t *testing.T) {
	axe, err := os.ReadFile(filepath.Join(os.Getenv("TWODIP_NODE_MODULES"), "axe-core", "axe.min.js"))
	if os.Getenv("TWODIP_NODE_MODULES") == "" || err != nil {
		require.NotEqual(t, "1", os.Getenv("TWODIP_ALL"), "axe-core is missing")
		t.Skip("axe-core (npm, in the folder that TWODIP_NODE_MODULES names) is not here")
	}
	wall := plannedWall(t)
	readablePhotos(t, wall)
	require.NoError(t, wall.WriteBytes(record.LogFile, []byte("piece,date,first,second,load,result,faults,looked at,phone key\n1,2026-03-02,W,C,G1,good,,,\n2,2026-03-20,W,PB,G1,,crawling; pinholing; specks; blistering,,\n3,2026-03-21,W,,,,,not yet,k\n")))
	c := open(t, wall.Dir())
	c.post("/photographs/read")
	c.done("/photographs")
	browser, stop := chromium.Start(context.Background())
	defer stop()
	ctx, cancel := context.WithTimeout(browser, 10*time.Minute)
	defer cancel()
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(c.address)))
	list := read(t, wall, content.GlazesCSV)
	long := os.Getenv("TWODIP_LONG") != ""
	widths := []int64{390}
	if long {
		widths = []int64{1280, 390, 320}
	}
	for _, s := range states {
		if !long && !slices.Contains(quickly, s.name) {
			continue
		}
		require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(1280, 900), chromedp.Navigate(c.base+s.at)))
		if s.does != "" {
			_, err := chromedp.Run(ctx, chromedp.Evaluate[string]("(() => {"+byForm+s.does+"; return ''; })()"))
			require.NoError(t, err, s.name)
		}
		if !assert.Eventually(t, func() bool {
			is, err := chromedp.Run(ctx, chromedp.Evaluate[bool](fmt.Sprintf(`document.readyState === "complete" && document.body.innerText.includes(%q)`, s.says)))
			return err == nil && is
		}, 10*time.Second, 30*time.Millisecond, "%s never says %q", s.name, s.says) {
			continue
		}
		for _, wide := range widths {
			require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(wide, 900)))
			picture(ctx, t, "state-"+s.name, wide)
			assert.Empty(t, answerOf(ctx, t, runsOut), "%s runs out of a window of %d", s.name, wide)
			if wide == 320 { // and as large as a person may want it
				answerOf(ctx, t, `(document.documentElement.style.fontSize = "200%", "")`)
				assert.Empty(t, answerOf(ctx, t, runsOut), "%s runs out with large letters", s.name)
				answerOf(ctx, t, `(document.documentElement.style.fontSize = "", "")`)
			} else {
				for _, v := range violations(ctx, t, string(axe)) {
					t.Errorf("%s at %d: %s: %s\n%s\n%s", s.name, wide, v.ID, v.Help, v.Nodes[0].HTML, v.Nodes[0].FailureSummary)
				}
			}
		}
	}
	require.Equal(t, list, read(t, wall, content.GlazesCSV), "nothing of all this was kept")
}

// readablePhotos puts a photograph that can be read and one that cannot into
// the wall.
func readablePhotos(t *testing.T, wall folder.Folder) {
	t.Helper()
	require.NoError(t, wall.WriteBytes("tiles/photos/7.jpg", photoOf(t, color.RGBA{150, 40, 30, 255})))
	require.NoError(t, wall.WriteBytes("tiles/photos/8.jpg", []byte("no picture")))
}
