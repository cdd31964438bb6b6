package bench

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/cmd/listen/chromium"
)

// violation is what axe-core says.
type violation struct {
	ID    string
	Help  string
	Nodes []struct{ HTML, FailureSummary string }
}

// TestAccessible holds every page of the bench, wide and as narrow as a phone,
// against all rules of axe-core, and to fitting its width. TWODIP_LOOK=DIR
// writes their pictures into DIR.
func TestAccessible(t *testing.T) {
	modules := os.Getenv("TWODIP_NODE_MODULES")
	source, err := os.ReadFile(filepath.Join(modules, "axe-core", "axe.min.js"))
	if modules == "" || err != nil {
		require.NotEqual(t, "1", os.Getenv("TWODIP_ALL"), "axe-core is missing")
		t.Skip("axe-core (npm, in the folder that TWODIP_NODE_MODULES names) is not here")
	}
	c := open(t, plannedWall(t).Dir())
	ctx, stop := chromium.Start(context.Background())
	defer stop()
	ctx, cancel := context.WithTimeout(ctx, 3*time.Minute)
	defer cancel()
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(c.address)))
	for _, wide := range []int64{1280, 390} {
		require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(wide, 900)))
		for _, r := range rooms() {
			require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(c.base+r.path)))
			picture(ctx, t, r.file, wide)
			assert.Empty(t, answerOf(ctx, t, runsOut), "%s runs out of a window of %d", r.path, wide)
			for _, v := range violations(ctx, t, string(source)) {
				t.Errorf("%s at %d: %s: %s\n%s\n%s", r.path, wide, v.ID, v.Help, v.Nodes[0].HTML, v.Nodes[0].FailureSummary)
			}
		}
	}
}

// runsOut names what stands beyond the right edge of the window; "" = nothing.
const runsOut = `document.documentElement.scrollWidth <= innerWidth ? "" : [...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > innerWidth).map(e => e.outerHTML.slice(0, 120)).slice(0, 3).join("\n")`

// violations are what axe-core has to say of the page, its folded parts open.
func violations(ctx context.Context, t *testing.T, source string) (vs []violation) {
	t.Helper()
	out := answerOf(ctx, t, `(async () => { for (const d of document.querySelectorAll("details")) d.open = true; `+source+`;
return JSON.stringify((await axe.run(document, { resultTypes: ['violations'] })).violations) })()`)
	require.NoError(t, json.Unmarshal([]byte(out), &vs))
	return vs
}

// answerOf is what a script says of the page. One that shows itself anew meanwhile,
// since a sheet was drawn or a file has changed, is asked again.
func answerOf(ctx context.Context, t *testing.T, script string) (said string) {
	t.Helper()
	var err error
	for range 8 {
		if said, err = chromedp.Run(ctx, chromedp.Evaluate[string](script, chromedp.EvalAwaitPromise)); err == nil {
			return said
		}
		time.Sleep(500 * time.Millisecond)
	}
	require.NoError(t, err)
	return ""
}

// picture writes what is shown into the folder that TWODIP_LOOK names.
func picture(ctx context.Context, t *testing.T, name string, wide int64) {
	t.Helper()
	look := os.Getenv("TWODIP_LOOK")
	if look == "" {
		return
	}
	png, err := chromedp.Run(ctx, chromedp.FullScreenshot(90))
	require.NoError(t, err)
	at := filepath.Join(look, strings.Join([]string{"bench", name, map[int64]string{1280: "wide", 390: "narrow", 320: "narrowest"}[wide]}, "-")+".jpg")
	require.NoError(t, os.WriteFile(at, png, 0o644))
}
