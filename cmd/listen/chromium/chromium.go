// Package chromium starts Chromium for tests, which drive it with chromedp. It is
// the headless shell: the same engine without a desktop's windows, in little more
// than half the time.
package chromium

import (
	"context"

	"github.com/chromedp/chromedp"
)

// Program is what is started.
const Program = "chromium-headless-shell"

// Start starts a Chromium of its own at the first thing that is done in its
// window; stop ends it.
func Start(in context.Context, more ...chromedp.ExecAllocatorOption) (window context.Context, stop func()) {
	how := append([]chromedp.ExecAllocatorOption{chromedp.ExecPath(Program), chromedp.Headless, chromedp.DisableGPU, chromedp.NoFirstRun}, more...)
	program, end := chromedp.NewExecAllocator(in, how...)
	window, leave := chromedp.NewContext(program)
	return window, func() { leave(); end() }
}
