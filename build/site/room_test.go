package site

import (
	"fmt"
	"os"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
)

// cutScript says what is cut off or outside its place on the stage; "" = nothing.
const cutScript = `(() => { const W = innerWidth, H = innerHeight;
	for (const e of document.querySelectorAll('#stage-tiles p, #stage-tiles svg, #stage-tiles img, #stage-bar *')) {
		const r = e.getBoundingClientRect();
		if (r.width && (r.left < -1 || r.top < -1 || r.right > W + 1 || r.bottom > H + 1)) return e.tagName + '.' + e.className + ' ' + e.textContent + ' is off the screen';
	}
	for (const p of document.querySelectorAll('#stage-tiles p')) {
		if (p.scrollWidth > p.clientWidth + 1) return p.textContent + ' is wider than its place';
		for (const q of p.closest('.stage-tile').querySelectorAll('.stage-photo')) {
			const a = p.getBoundingClientRect(), b = q.getBoundingClientRect();
			if (a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1) return p.textContent + ' lies over its photo';
		}
	}
	for (const i of document.querySelectorAll('#stage-tiles img')) if (getComputedStyle(i).objectFit !== 'contain') return 'a photo is cropped';
	return '' })()`

// Every tile is shown whole in every room, and the settings say beforehand
// which have letters smaller than the back row reads. Each screen is tried in
// two of the five rooms, each room on two screens; with TWODIP_LONG=1 in all.
func TestTheRoomShowsAllOfATile(t *testing.T) {
	dir, wall := standingSite(t)
	small := 0
	rooms := []struct {
		back, high float64
		side       int
	}{{3, 1.8, 1}, {8, 0.68, 1}, {8, 1.8, 3}, {15, 1, 2}, {15, 1.8, 4}}
	for k, screen := range [][2]int64{{1024, 768}, {1366, 768}, {1920, 1080}, {3840, 2160}, {390, 844}} {
		b := openTab(t, screen[0], screen[1])
		for j, room := range rooms {
			if os.Getenv("TWODIP_LONG") == "" && (j+k)%len(rooms) > 1 {
				continue
			}
			b.visit(fileURL(dir, fmt.Sprintf("room.html#back=%g&high=%g&side=%d", room.back, room.high, room.side)))
			b.until(`/fit/.test(document.getElementById('letters').textContent)`)
			before := eval[string](b, `document.getElementById('letters').textContent`)
			b.do(chromedp.Click(chromedp.ID("show")))
			// All tiles in one go: the script pages through them.
			wrong := eval[string](b, `(() => { let small = 0;
						for (let k = 0; k < 200; k++) {
							const cut = `+cutScript+`;
							if (cut) return document.getElementById('stage-says').textContent + ': ' + cut;
							if (/letters for/.test(document.getElementById('stage-at').textContent)) small++;
							const was = document.getElementById('stage-says').textContent;
							document.dispatchEvent(new KeyboardEvent('keydown', { key: 'PageDown', bubbles: true }));
							if (document.getElementById('stage-says').textContent === was) break;
						}
						return small ? 'small ' + small : ''; })()`)
			var n int
			if _, err := fmt.Sscanf(wrong, "small %d", &n); err == nil {
				small += n
				assert.Contains(t, before, "fit", before)
				assert.Regexp(t, `do not fit|No tile fits`, before, "said before: %v, %v", screen, room)
				continue
			}
			assert.Empty(t, wrong, "%v, %v", screen, room)
		}
		b.quiet()
	}
	t.Logf("%d tiles; in %d of all showings the letters were smaller than the back row reads, which was said before", len(wall.Tiles), small)
}

func TestTheRoomTakesNumbersOrdersAndCodes(t *testing.T) {
	dir, _ := standingSite(t)
	base := serve(t, dir)
	b := openTab(t, 1920, 1080)
	b.visit(base + "room.html#tile=7&show=1")
	b.until(`document.querySelector('.stage-number')`)
	b.press("1", "0", "4", kb.Enter)
	b.until(`document.querySelector('.stage-number').textContent === '104'`)
	b.press("o")
	b.until(`document.querySelectorAll('.stage-tile').length === 2`)
	b.press("q")
	b.until(`document.querySelector('.stage-code svg')`)
	assert.Contains(t, eval[string](b, `document.querySelector('.stage-code svg').getAttribute('aria-label')`), "shortlist.html#tiles=104,")
	assert.Empty(t, eval[string](b, cutScript))
	b.picture("room-both-orders")
	b.do(chromedp.Reload())
	b.until(`document.querySelectorAll('.stage-tile').length === 2`)
	assert.True(t, eval[bool](b, `!document.getElementById('stage').hidden`), "F5 stays in the show")
	b.press(kb.PageDown)
	assert.Contains(t, eval[string](b, `document.getElementById('stage-at').textContent`), " of ")
	b.press(kb.Escape)
	b.until(`document.getElementById('stage').hidden && document.activeElement.id === 'show'`)
	b.quiet()
}
