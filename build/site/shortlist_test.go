package site

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tap taps the middle of an element, or its right lower corner, after bringing
// it into view as a finger would.
func (b *tab) tap(selector string, corner bool) {
	b.t.Helper()
	type spot struct{ X, Y float64 }
	at := eval[spot](b, `(() => { const e = document.querySelector(`+asJSON(b.t, selector)+`); e.scrollIntoView({ block: 'center' });
		const r = e.getBoundingClientRect(); return `+map[bool]string{true: `{ X: r.right - 8, Y: r.bottom - 8 }`, false: `{ X: r.left + r.width / 2, Y: r.top + r.height / 2 }`}[corner]+` })()`)
	b.do(chromedp.MouseClickXY(at.X, at.Y))
}

// A student with a phone shortlists three tiles and prints them: in at most
// twelve taps from the first page.
func TestAPhoneShortlistsThreeAndPrints(t *testing.T) {
	dir, _ := standingSite(t)
	both(t, dir, func(t *testing.T, at func(string) string) {
		b := openTab(t, 390, 844)
		call(b, emulation.SetTouchEmulationEnabled, emulation.SetTouchEmulationEnabledParams{Enabled: true})
		b.visit(at("index.html"))
		eval[any](b, `(localStorage.clear(), 1)`)
		taps := 0
		tap := func(selector string, corner bool) { b.tap(selector, corner); taps++ }
		for _, n := range []string{"13", "26"} {
			tap(`.cell:has(> a[href="tile/`+n+`.html"])`, true)
			b.until(`document.getElementById('say').textContent.startsWith('Tile ` + n + ` is on your shortlist')`)
		}
		tap("#words", false)
		b.do(chromedp.SendKeys(chromedp.ID("words"), "rust"))
		b.until(`location.hash === '#words=rust'`) // the last letter has been looked for
		tap(`[data-pick="2"]`, false)
		b.until(`document.querySelector('[data-pick="2"]').getAttribute('aria-pressed') === 'true'`)
		tap("#say-ways a", false)
		b.until(`location.pathname.endsWith('/shortlist.html') && document.querySelectorAll('#short-list > li').length === 3`)
		eval[any](b, `(window.print = () => { document.title = 'printed'; }, 1)`)
		b.picture("shortlist-phone")
		tap("#short-print", false)
		b.until(`document.title === 'printed'`)
		t.Logf("%d taps from the first page to a printed shortlist of three", taps)
		assert.LessOrEqual(t, taps, 12)
		said := eval[string](b, `document.getElementById('short-list').textContent`)
		for _, want := range []string{"13", "Lamp Rust", "Buckets: 1st LB, 2nd QA", "Hangs in row 2, column 1"} {
			assert.Contains(t, said, want)
		}
		tap(`[data-off="26"]`, false)
		b.until(`document.querySelectorAll('#short-list > li').length === 2 && document.activeElement.textContent === 'Undo'`)
		b.press(kb.Enter)
		b.until(`document.querySelectorAll('#short-list > li').length === 3`)
		out := call(b, page.PrintToPDF, page.PrintToPDFParams{PaperWidth: 8.27, PaperHeight: 11.69})
		assert.Equal(t, 1, strings.Count(string(out.Data), "/Type /Page\n")+strings.Count(string(out.Data), "/Type /Page/"), "three tiles are one page")
		eval[any](b, `(localStorage.clear(), 1)`)
		b.quiet()
	})
}

// The code on the screen holds the address: read from the screen by zbar, a
// reader of other making.
func TestTheShortlistsCodeIsItsAddress(t *testing.T) {
	dir, _ := standingSite(t)
	_, err := exec.LookPath("zbarimg")
	needs(t, err != nil, "zbarimg")
	base := serve(t, dir)
	b := openTab(t, 1024, 768)
	for _, list := range []string{"7", "7,12,26", "7,12,26,1,2,3,4,5,6,8,9,10,11,13,14,15,16,17,18,19,20,21,22,23,24,25,27,28,29,30,31,32,33,34"} {
		b.visit(base + "shortlist.html#tiles=" + list)
		b.until(`document.querySelector('#share-code svg')`)
		eval[any](b, `(document.getElementById('share').scrollIntoView(), 1)`)
		shot, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
		require.NoError(t, err)
		file := filepath.Join(t.TempDir(), "screen.png")
		require.NoError(t, os.WriteFile(file, shot, 0o644))
		out, err := exec.Command("zbarimg", "-q", "--raw", "--nodbus", file).Output()
		require.NoError(t, err, list)
		assert.Equal(t, base+"shortlist.html#tiles="+list, strings.TrimSpace(string(out)))
	}
	b.quiet()
}

// A list that was sent is shown and leaves one's own alone until it is asked in.
func TestASentShortlistLeavesOnesOwn(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 1024, 768)
	b.visit(fileURL(dir, "shortlist.html"))
	eval[any](b, `(twodip.picks.set([3]), 1)`)
	b.visit(fileURL(dir, "shortlist.html#tiles=7,9999,7,x,12"))
	numbers := func() []int {
		return eval[[]int](b, `[...document.querySelectorAll('#short-list a.number')].map(e => Number(e.textContent))`)
	}
	assert.Equal(t, []int{7, 12}, numbers())
	assert.Contains(t, eval[string](b, `document.getElementById('short-note').textContent`), "sent to you")
	b.do(chromedp.Click(chromedp.ID("short-take")))
	assert.Equal(t, []int{3, 7, 12}, numbers())
	b.do(chromedp.Click(chromedp.ID("short-clear")))
	b.until(`document.querySelectorAll('#short-list > li').length === 0`)
	b.press(kb.Enter)
	assert.Equal(t, []int{3, 7, 12}, numbers(), "undone by the key that is at hand")
	var kept []int
	require.NoError(t, json.Unmarshal([]byte(eval[string](b, `JSON.stringify(twodip.picks.all())`)), &kept))
	assert.Equal(t, []int{3, 7, 12}, kept)
	eval[any](b, `(localStorage.clear(), 1)`)
	b.quiet()
}
